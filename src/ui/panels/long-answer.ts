import { css, html, nothing } from 'lit';
import type { AnswerController } from '../controllers/answer-controller.ts';

export const longAnswerStyles = css`
  .counting {
    display: flex;
    align-items: center;
    gap: 1rem;
    margin-block: 0.5rem;
  }
`;

/** How far an answer has come that takes long, and a button that stops it; nothing while there is nothing to tell. */
export function answerProgress({ answer, stop }: AnswerController<unknown>, label: string) {
  if (answer.status !== 'pending' || answer.progress === undefined) return nothing;
  return html`<p class="counting">
    <progress max="1" .value=${answer.progress} aria-label=${label}></progress>
    <button type="button" @click=${stop}>Stop</button>
  </p>`;
}

/** Why there is no answer, and a button that asks again. */
export function answerFault(reason: string, { askAgain }: AnswerController<unknown>, again: string) {
  return html`<p role="alert">${reason}</p>
    <p><button type="button" @click=${askAgain}>${again}</button></p>`;
}

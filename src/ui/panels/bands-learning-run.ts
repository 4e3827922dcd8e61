import { html, nothing, type ReactiveControllerHost } from 'lit';
import type { LearningSettings, ProposalLine, WorkProgress } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { countOf, countText } from '../words.ts';

/** Learning from all checks of a family, which may take a while: it tells how far it is, and can be stopped. */
export class LearningRun {
  /** Whether the last run was stopped by hand. */
  isStopped = false;
  private progress: WorkProgress | undefined;
  private running: AbortController | undefined;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
  }

  async learn(
    session: Session,
    family: string,
    settings: LearningSettings,
    signal: AbortSignal,
  ): Promise<readonly ProposalLine[]> {
    const running = (this.running = new AbortController());
    this.isStopped = false;
    try {
      const either = AbortSignal.any([signal, running.signal]);
      return await session.ask('proposeFamily', [family, settings], either, (progress) => {
        if (this.running !== running) return;
        this.progress = progress;
        this.host.requestUpdate();
      });
    } finally {
      if (this.running === running) [this.running, this.progress] = [undefined, undefined];
      this.isStopped ||= running.signal.aborted;
      this.host.requestUpdate();
    }
  }

  /** How far the run is, and the way to stop it. @param what - what is being done, as a sentence */
  render(what: string, { state: { decimalMark } }: Session) {
    const { progress, running } = this;
    return html`<div class="learning">
      <span role="status">${what}</span>
      ${
        progress === undefined
          ? nothing
          : html`<progress max=${progress.total} .value=${progress.done} aria-label="Checks learned"></progress>
              <span class="figures"
                >${countText(progress.done, decimalMark)} of ${countOf(progress.total, 'check', decimalMark)}</span
              >`
      }
      ${
        running === undefined
          ? nothing
          : html`<button
              type="button"
              @click=${() => {
                running.abort();
              }}
            >
              Cancel
            </button>`
      }
    </div>`;
  }
}

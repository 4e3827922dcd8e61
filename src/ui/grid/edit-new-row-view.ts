import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { EDIT_FIELDS } from '../../domain/reading-edit.ts';
import { MODES, SPECIMENS, STAGES } from '../../domain/reading.ts';
import type { EditField } from '../../session/answers.ts';
import type { GridNewRowController, NewRow } from '../controllers/grid-new-row-controller.ts';

/** Fields that hold one of a few words. */
const WORDS: Readonly<Partial<Record<EditField, readonly string[]>>> = {
  stage: STAGES,
  mode: MODES,
  specimen: SPECIMENS,
};

/** A line of fields for one reading that is written by hand, each with what is wrong with it. */
export function newRowTemplate({ texts, faults }: NewRow, adding: GridNewRowController): TemplateResult {
  return html`<form
    class="new-row"
    aria-label="A new reading"
    @submit=${(event: SubmitEvent) => {
      event.preventDefault();
      void adding.add();
    }}
    @keydown=${({ key }: KeyboardEvent) => {
      if (key === 'Escape') adding.end();
    }}
  >
    ${EDIT_FIELDS.map(
      (field) =>
        html`<label>
          <span>${field}</span>
          ${fieldTemplate(field, texts[field], faults[field] !== undefined, adding)}
          <span class="wrong" id="new-${field}">${faults[field] ?? nothing}</span>
        </label>`,
    )}
    <div class="ways">
      <button class="main" type="submit">Add it</button>
      <button
        type="button"
        @click=${() => {
          adding.end();
        }}
      >
        Close
      </button>
    </div>
    <p class="wrong" role="alert">${faults[''] ?? nothing}</p>
  </form>`;
}

function fieldTemplate(field: EditField, text: string, isWrong: boolean, adding: GridNewRowController): TemplateResult {
  const words = WORDS[field];
  // What was written so far outlasts any drawing of the grid.
  const onInput = (event: Event): void => {
    adding.write(field, (event.target as HTMLInputElement | HTMLSelectElement).value);
  };
  if (words === undefined)
    return html`<input
      name=${field}
      autocomplete="off"
      aria-invalid=${isWrong}
      aria-describedby="new-${field}"
      .value=${live(text)}
      @input=${onInput}
    />`;
  return html`<select name=${field} aria-invalid=${isWrong} aria-describedby="new-${field}" @input=${onInput}>
    ${words.map((word) => html`<option .selected=${live(word === text)}>${word}</option>`)}
  </select>`;
}

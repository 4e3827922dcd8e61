import { html, nothing, type TemplateResult } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { EditsSoFar } from '../../session/answers.ts';
import type { CellEditor, GridEditController, PastePreview } from '../controllers/grid-edit-controller.ts';
import { countOf } from '../words.ts';
import { editText } from './edit-text.ts';

/** Changes and faults that a preview lists; the rest is counted. */
const LISTED = 12;

/**
 * The field in the place of a cell's text, with what is wrong beside it.
 * @param isLow - whether there is no room below the cell
 */
export function editorTemplate(
  editor: CellEditor,
  title: string,
  isLow: boolean,
  edits: GridEditController,
): TemplateResult {
  const textOf = (event: Event): string => (event.target as HTMLInputElement).value;
  return html`<input
      class="editor"
      aria-label=${title}
      aria-invalid=${editor.fault !== undefined}
      aria-describedby="fault"
      .value=${editor.text}
      @keydown=${(event: KeyboardEvent) => {
        event.stopPropagation();
        const { key, ctrlKey, metaKey } = event;
        if (key !== 'Enter' && key !== 'Escape' && key !== 'Tab') return;
        event.preventDefault();
        if (key === 'Escape') edits.cancel();
        else void edits.keep(textOf(event), ctrlKey || metaKey, key === 'Enter' && !ctrlKey && !metaKey ? 1 : 0);
      }}
      @pointerdown=${(event: Event) => {
        event.stopPropagation();
      }}
    /><span id="fault" class=${isLow ? 'fault above' : 'fault'} role="alert">${editor.fault ?? nothing}</span>`;
}

/** What was edited by hand, and the ways back; nothing where nothing was. */
export function editsTemplate(
  { changed, deleted, steps, undone }: EditsSoFar,
  edits: GridEditController,
  mark: DecimalMark,
): TemplateResult | typeof nothing {
  if (steps + undone === 0) return nothing;
  const button = (call: Parameters<GridEditController['run']>[0], words: string): TemplateResult =>
    html`<button class="plain" type="button" @click=${() => edits.run(call)}>${words}</button>`;
  return html`<p class="edits">
    <span
      >${countOf(changed, 'reading', mark)} edited by
      hand${deleted === 0 ? nothing : `, ${countOf(deleted, 'reading', mark)} deleted`}, as long as the page is
      open</span
    >
    ${steps === 0 ? nothing : button('undoEdit', 'undo')} ${undone === 0 ? nothing : button('redoEdit', 'redo')}
    ${deleted === 0 ? nothing : button('returnReadings', 'bring the deleted back')}
  </p>`;
}

/** What a pasted block would change, to be agreed to. */
export function previewTemplate(
  { answer }: PastePreview,
  edits: GridEditController,
  mark: DecimalMark,
): TemplateResult {
  const { changed, faults, examples } = answer;
  const settle = (isWanted: boolean) => () => edits.settle(isWanted);
  const more = (count: number): TemplateResult | typeof nothing =>
    count > LISTED ? html`<li class="quiet">and others</li>` : nothing;
  return html`<section class="preview" aria-label="What would be pasted">
    ${
      faults.length > 0
        ? html`<p>Nothing can be pasted as it is: mend these cells where they come from, and copy them again.</p>
            <ul>
              ${faults
                .slice(0, LISTED)
                .map(({ line, field, fault }) => html`<li class="wrong">Row ${line + 1}, ${field}: ${fault}</li>`)}
              ${more(faults.length)}
            </ul>`
        : html`<p>
              ${changed === 0 ? 'All of this is so already: nothing would change.' : `${countOf(changed, 'cell', mark)} would change:`}
            </p>
            <ul>
              ${examples.slice(0, LISTED).map(
                ({ line, field, before, after }) =>
                  html`<li>
                    Row ${line + 1}, ${field}: ${editText(field, before, mark) || 'blank'} becomes
                    <b>${editText(field, after, mark) || 'blank'}</b>
                  </li>`,
              )}
              ${more(changed)}
            </ul>`
    }
    <div>
      ${faults.length === 0 && changed > 0 ? html`<button class="main" type="button" @click=${settle(true)}>Change them</button>` : nothing}
      <button type="button" @click=${settle(false)}>Leave all as it is</button>
    </div>
  </section>`;
}

import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { AddAnswer, EditAnswer, EditsSoFar } from '../../session/answers.ts';
import type { CellEditor, GridEditController } from '../controllers/grid-edit-controller.ts';
import type { GridPasteController, PasteManner, PastePreview } from '../controllers/grid-paste-controller.ts';
import { countOf } from '../words.ts';
import { editText } from './edit-text.ts';
import { addedSentence, columnsSentence, givenSentence, readingSentence, stepSource, stepText } from './edit-words.ts';

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
        if (key !== 'Enter' && key !== 'Escape' && key !== 'Tab' && key !== 'F2') return;
        event.preventDefault();
        if (key === 'Escape') edits.cancel();
        else void edits.keep(textOf(event), ctrlKey || metaKey, key === 'Enter' && !ctrlKey && !metaKey ? 1 : 0);
      }}
      @pointerdown=${(event: Event) => {
        event.stopPropagation();
      }}
    /><span id="fault" class=${isLow ? 'fault above' : 'fault'} role="alert">${editor.fault ?? nothing}</span>`;
}

/** What was edited by hand, why the last of it was, and the ways back; nothing where nothing was. */
export function editsTemplate(
  { changed, deleted, steps, undone, last }: EditsSoFar,
  edits: GridEditController,
  mark: DecimalMark,
): TemplateResult | typeof nothing {
  if (steps + undone === 0) return nothing;
  const button = (call: Parameters<GridEditController['run']>[0], words: string): TemplateResult =>
    html`<button class="plain" type="button" @click=${() => edits.run(call)}>${words}</button>`;
  return html`<div class="edits">
    <span
      >${countOf(changed, 'reading', mark)} edited by
      hand${deleted === 0 ? nothing : `, ${countOf(deleted, 'reading', mark)} deleted`}</span
    >
    ${steps === 0 ? nothing : button('undoEdit', 'undo')} ${undone === 0 ? nothing : button('redoEdit', 'redo')}
    ${deleted === 0 ? nothing : button('returnReadings', 'bring the deleted back')}
    ${
      last === undefined
        ? nothing
        : html`<span>last: ${stepText(last, mark)}, ${stepSource(last)}</span>
            <label
              >why, if you like
              <input
                class="why"
                maxlength="500"
                .value=${last.why ?? ''}
                @change=${(event: Event) => edits.explain((event.target as HTMLInputElement).value)}
            /></label>`
    }
  </div>`;
}

/** What a pasted block would change or add, to be agreed to. */
export function previewTemplate(
  preview: PastePreview,
  pasting: GridPasteController,
  mark: DecimalMark,
): TemplateResult {
  const { manner, over, added } = preview;
  const answer = manner === 'over' ? over : added;
  const choice = (of: PasteManner, words: string): TemplateResult =>
    html`<label
      ><input
        type="radio"
        name="manner"
        .checked=${live(manner === of)}
        @change=${() => pasting.choose(of)}
      />${words}</label
    >`;
  const settle = (isWanted: boolean) => () => pasting.settle(isWanted);
  const canPaste = typeof over === 'object' && over.faults.length === 0 && over.changed > 0;
  const canAdd = typeof added === 'object' && added.added > 0;
  return html`<section
    class="preview"
    role="group"
    aria-label="What would be pasted"
    tabindex="-1"
    @keydown=${({ key }: KeyboardEvent) => (key === 'Escape' ? pasting.settle(false) : undefined)}
  >
    <p class="manner">${choice('over', 'over the readings from here on')} ${choice('new', 'as new readings')}</p>
    <div role="status">
      ${
        answer === undefined
          ? html`<p>Reading the block</p>`
          : typeof answer === 'string'
            ? html`<p class="wrong">${answer}</p>`
            : 'examples' in answer && 'hasHeader' in answer
              ? addedTemplate(answer, mark)
              : overTemplate(answer, preview.below, mark)
      }
    </div>
    <div>
      ${
        manner === 'over'
          ? canPaste
            ? html`<button class="main" type="button" @click=${settle(true)}>Change them</button>`
            : nothing
          : canAdd
            ? html`<button class="main" type="button" @click=${settle(true)}>Add them</button>`
            : nothing
      }
      <button type="button" @click=${settle(false)}>Leave all as it is</button>
    </div>
  </section>`;
}

function overTemplate({ changed, faults, examples }: EditAnswer, below: number, mark: DecimalMark): TemplateResult {
  const left =
    below === 0
      ? nothing
      : html`<p>
          ${countOf(below, 'row', mark)} of the block ${below === 1 ? 'falls' : 'fall'} below the last line and
          ${below === 1 ? 'is' : 'are'} left out: as new readings they would be added.
        </p>`;
  if (faults.length > 0)
    return html`<p>Nothing can be pasted as it is: mend these cells where they come from, and copy them again.</p>
      ${listed(
        faults.map(({ line, field, fault }) => html`<span class="wrong">Row ${line + 1}, ${field}: ${fault}</span>`),
        faults.length,
      )}
      ${left}`;
  return html`<p>
      ${changed === 0 ? 'All of this is so already: nothing would change.' : `${countOf(changed, 'cell', mark)} would change:`}
    </p>
    ${listed(
      examples.map(
        ({ line, field, before, after }) =>
          html`Row ${line + 1}, ${field}: ${editText(field, before, mark) || 'blank'} becomes
            <b>${editText(field, after, mark) || 'blank'}</b>`,
      ),
      changed,
    )}
    ${left}`;
}

function addedTemplate(answer: AddAnswer, mark: DecimalMark): TemplateResult {
  const { added, setAside, faults, examples, doubts } = answer;
  return html`<p>${addedSentence(answer, mark)}</p>
    <p class="quiet">${columnsSentence(answer)} ${givenSentence(answer)}</p>
    ${doubts.map((doubt) => html`<p>${doubt}</p>`)}
    ${listed(
      faults.map(
        ({ row, column, fault }) =>
          html`<span class="wrong">Row ${row} of the block${column === '' ? '' : `, ${column}`}: ${fault}</span>`,
      ),
      setAside,
    )}
    ${listed(
      examples.map((reading) => html`${readingSentence(reading, mark)}`),
      added,
    )}`;
}

/** The first of some lines. @param all - how many there are in all */
function listed(lines: readonly TemplateResult[], all: number): TemplateResult | typeof nothing {
  if (lines.length === 0) return nothing;
  const shown = lines.slice(0, LISTED);
  return html`<ul>
    ${shown.map((line) => html`<li>${line}</li>`)}
    ${all > shown.length ? html`<li class="quiet">and others</li>` : nothing}
  </ul>`;
}

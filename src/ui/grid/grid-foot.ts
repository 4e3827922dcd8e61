import { html, nothing, type TemplateResult } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { SelectionSummary } from '../../session/answers.ts';
import type { Answer } from '../controllers/answer-controller.ts';
import type { GridEditController } from '../controllers/grid-edit-controller.ts';
import type { CopyManner } from './copy-text.ts';
import { newRowTemplate } from './edit-new-row-view.ts';
import { editsTemplate, previewTemplate } from './edit-view.ts';
import { KEYS_HINT, selectionLine } from './selection-line.ts';

/** What stands under the rows of the grid. */
export interface GridFoot {
  /** Why rows could not be had, as a sentence. */
  readonly fault: string | undefined;
  readonly isEmpty: boolean;
  /** What several selected rows come to; undefined where no more than one is selected. */
  readonly selection: Answer<SelectionSummary> | undefined;
  readonly edits: GridEditController;
  readonly mark: DecimalMark;
  readonly copy: (manner: CopyManner) => void;
}

/** The line about the selection with its copies, what was edited by hand, and a block that waits to be pasted. */
export function footTemplate(foot: GridFoot): TemplateResult {
  const { selection, edits, mark, copy } = foot;
  const copies = (manner: CopyManner, words: string): TemplateResult =>
    html`<button
      class="plain"
      type="button"
      @click=${() => {
        copy(manner);
      }}
    >
      ${words}
    </button>`;
  return html`<div class="under">
      <p class="about">${aboutTemplate(foot)}</p>
      <span class="copies">
        ${
          selection === undefined
            ? nothing
            : html`${copies('spreadsheet', 'copy for a spreadsheet')} ${copies('exact', 'copy exactly')}
                <label class="headers"
                  ><input
                    type="checkbox"
                    .checked=${edits.copiesHeaders}
                    @change=${(event: Event) => {
                      edits.copiesHeaders = (event.target as HTMLInputElement).checked;
                    }}
                  />with headers</label
                >
                <button class="plain" type="button" @click=${() => edits.run('copyReadings')}>
                  add them once more
                </button>`
        }
        <button class="plain" type="button" @click=${() => edits.adding.begin()}>add a reading</button>
      </span>
    </div>
    ${edits.adding.row === undefined ? nothing : newRowTemplate(edits.adding.row, edits.adding)}
    ${edits.soFar === undefined ? nothing : editsTemplate(edits.soFar, edits, mark)}
    ${edits.pasting.preview === undefined ? nothing : previewTemplate(edits.pasting.preview, edits.pasting, mark)}`;
}

function aboutTemplate({ fault, isEmpty, selection, mark }: GridFoot): TemplateResult | typeof nothing {
  if (fault !== undefined) return html`<span role="alert">${fault}</span>`;
  if (isEmpty) return nothing;
  if (selection === undefined) return KEYS_HINT;
  if (selection.status === 'failed') return html`<span>${selection.reason}</span>`;
  return selection.value === undefined ? nothing : selectionLine(selection.value, mark);
}

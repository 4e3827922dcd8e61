import { html, nothing, type TemplateResult } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { SelectionSummary } from '../../session/answers.ts';
import type { Answer } from '../controllers/answer-controller.ts';
import type { GridEditController } from '../controllers/grid-edit-controller.ts';
import type { CopyManner } from './copy-text.ts';
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
      ${
        selection === undefined
          ? nothing
          : html`<span class="copies"
              >${copies('spreadsheet', 'copy for a spreadsheet')} ${copies('exact', 'copy exactly')}</span
            >`
      }
    </div>
    ${edits.soFar === undefined ? nothing : editsTemplate(edits.soFar, edits, mark)}
    ${edits.preview === undefined ? nothing : previewTemplate(edits.preview, edits, mark)}`;
}

function aboutTemplate({ fault, isEmpty, selection, mark }: GridFoot): TemplateResult | typeof nothing {
  if (fault !== undefined) return html`<span role="alert">${fault}</span>`;
  if (isEmpty) return nothing;
  if (selection === undefined) return KEYS_HINT;
  if (selection.status === 'failed') return html`<span>${selection.reason}</span>`;
  return selection.value === undefined ? nothing : selectionLine(selection.value, mark);
}

import { errorText } from '../../domain/error-text.ts';
import type { AddAnswer, CellText, EditAnswer, NewRows } from '../../session/answers.ts';
import { newRows, pastedBlock } from '../grid/edit-text.ts';
import { isGroup } from '../grid/group-text.ts';
import { readBlock } from '../grid/read-block.ts';
import { countOf } from '../words.ts';
import { GridEditPart } from './grid-edit-part.ts';

/** Over the readings that are there, or as new ones. */
export type PasteManner = 'over' | 'new';

/** A block that waits to be pasted: what it would change, or add. */
export interface PastePreview {
  readonly manner: PasteManner;
  readonly cells: readonly CellText[];
  /** Rows of the block that fall below the last line. */
  readonly below: number;
  readonly rows: NewRows;
  /** What it comes to; a sentence where it comes to nothing, undefined while that is asked. */
  readonly over?: EditAnswer | string;
  readonly added?: AddAnswer | string;
}

/** Shows what a pasted block would do, and does it once that was agreed to. */
export class GridPasteController extends GridEditPart {
  preview: PastePreview | undefined;

  /** Shows what a block would change before it does. */
  async begin(text: string): Promise<void> {
    const edited = this.options.edited();
    if (edited === undefined || text === '') return;
    const { range, columns, lines } = edited;
    const { row, column } = this.options.cursor();
    const like = this.options.row(row);
    const cells = readBlock(text);
    const rows = newRows(cells, columns, column, like === undefined || isGroup(like) ? undefined : like);
    const block = pastedBlock(cells, range, columns, lines);
    const hasPlace = range.lastRow >= range.firstRow && row >= 0;
    this.preview = { ...block, rows, manner: hasPlace ? 'over' : 'new' };
    await this.ask();
    await this.host.updateComplete;
    this.host.renderRoot.querySelector<HTMLElement>('.preview')?.focus();
  }

  /** Shows the same block in another manner. */
  async choose(manner: PasteManner): Promise<void> {
    if (this.preview === undefined) return;
    this.preview = { ...this.preview, manner };
    await this.ask();
  }

  /** Ends the preview, and does what it showed where that is wanted. */
  async settle(isWanted: boolean): Promise<void> {
    const { preview } = this;
    const edited = this.options.edited();
    this.preview = undefined;
    this.host.requestUpdate();
    if (isWanted && preview !== undefined && edited !== undefined) {
      const { session, query } = edited;
      const mark = session.state.decimalMark;
      try {
        if (preview.manner === 'over') {
          const { changed } = await session.ask('editReadings', [query, preview.cells, mark]);
          this.options.say(`${countOf(changed, 'cell', mark)} changed.`);
        } else {
          const { added, setAside } = await session.ask('addReadings', [preview.rows, mark]);
          const aside = setAside === 0 ? '' : ` ${countOf(setAside, 'row', mark)} set aside: see Shift.`;
          this.options.say(`${countOf(added, 'reading', mark)} added.${aside}`);
        }
        this.changed();
      } catch (error) {
        this.options.say(`Nothing was pasted. ${errorText(error)}`);
      }
    }
    this.options.focusCell(0);
  }

  /** Asks what the block comes to in the manner that is chosen. */
  private async ask(): Promise<void> {
    const asked = this.preview;
    const edited = this.options.edited();
    if (asked === undefined || edited === undefined) return;
    const { session, query } = edited;
    const mark = session.state.decimalMark;
    if (asked.manner === 'over' && asked.over === undefined) {
      const over = await session.ask('tryEdit', [query, asked.cells, mark]).catch(errorText);
      if (this.preview !== undefined) this.preview = { ...this.preview, over };
    } else if (asked.manner === 'new' && asked.added === undefined) {
      const added = await session.ask('tryAdd', [asked.rows, mark]).catch(errorText);
      if (this.preview !== undefined) this.preview = { ...this.preview, added };
    }
    this.host.requestUpdate();
  }
}

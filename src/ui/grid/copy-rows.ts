import { errorText } from '../../domain/error-text.ts';
import type { ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { countOf, countText } from '../words.ts';
import { copyText, type CopyManner } from './copy-text.ts';
import { derivedFields, type GridColumn } from './grid-columns.ts';
import type { GridRange } from './grid-cursor.ts';

/** More rows than this are not copied at once: no other program takes so many from the clipboard. */
const COPY_LIMIT = 100_000;
/** Rows that are written at a time, so that the page can be used meanwhile. */
const PIECE = 2000;

/** Copies some lines of a query to the clipboard, and gives the sentence that says what came of it. */
export async function copyRows(
  session: Session,
  query: ReadingsQuery,
  { firstRow, lastRow }: GridRange,
  columns: readonly GridColumn[],
  manner: CopyManner,
  wantsHeaders: boolean,
): Promise<string> {
  const mark = session.state.decimalMark;
  const count = lastRow - firstRow + 1;
  if (count > COPY_LIMIT)
    return `No more than ${countText(COPY_LIMIT, mark)} rows can be copied at once: select fewer.`;
  try {
    // A single cell is its own text: whoever pastes it wants no second line.
    const hasHeaders = wantsHeaders && (count > 1 || columns.length > 1);
    const { revision } = session.state;
    const texts: string[] = [];
    for (let first = firstRow; first <= lastRow; first += PIECE) {
      const rows = Math.min(PIECE, lastRow - first + 1);
      const lines = await session.ask('lines', [query, first, rows, derivedFields(columns)]);
      if (session.state.revision !== revision) throw new Error('The readings changed meanwhile: copy them again.');
      texts.push(copyText(lines, columns, mark, manner, hasHeaders && first === firstRow));
    }
    await navigator.clipboard.writeText(texts.join('\r\n'));
    const how = manner === 'exact' ? 'exactly' : 'for a spreadsheet';
    return `${countOf(count, 'row', mark)} copied ${how}, ${hasHeaders ? 'with' : 'without'} headers.`;
  } catch (error) {
    return `Nothing was copied. ${errorText(error)}`;
  }
}

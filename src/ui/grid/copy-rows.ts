import type { ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { countOf, countText } from '../words.ts';
import { copyText, type CopyManner } from './copy-text.ts';
import { derivedFields, type GridColumn } from './grid-columns.ts';
import type { GridRange } from './grid-cursor.ts';

/** More rows than this are not copied at once: no other program takes so many from the clipboard. */
const COPY_LIMIT = 100_000;

/** Copies some lines of a query to the clipboard, and gives the sentence that says what came of it. */
export async function copyRows(
  session: Session,
  query: ReadingsQuery,
  { firstRow, lastRow }: GridRange,
  columns: readonly GridColumn[],
  manner: CopyManner,
): Promise<string> {
  const mark = session.state.decimalMark;
  const count = lastRow - firstRow + 1;
  if (count > COPY_LIMIT)
    return `No more than ${countText(COPY_LIMIT, mark)} rows can be copied at once: select fewer.`;
  try {
    const lines = await session.ask('lines', [query, firstRow, count, derivedFields(columns)]);
    await navigator.clipboard.writeText(copyText(lines, columns, mark, manner));
    const how = manner === 'exact' ? 'exactly, without headers' : 'for a spreadsheet, with headers';
    return `${countOf(count, 'row', mark)} copied ${how}.`;
  } catch (error) {
    return `Nothing was copied. ${error instanceof Error ? error.message : String(error)}`;
  }
}

import type { DateOrder, Separator } from '../domain/file-plan.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import { NumberScanner } from './number-scanner.ts';

/** A decision, and the cell that leaves it open where the file alone cannot settle it. */
export interface Decision<Choice> {
  readonly choice: Choice;
  readonly example?: string;
  /** Whether cells speak for both. */
  readonly mixed?: boolean;
}

/** The decimal mark of a file by its cells of numbers. `123,000` alone proves nothing, `0,64` and `1.234,5` do. */
export function guessDecimalMark(cells: Iterable<string>, separator: Separator): Decision<DecimalMark> {
  let points = 0;
  let commas = 0;
  let open: string | undefined;
  for (const cell of cells) {
    const proof = proves(cell.trim());
    if (proof === '.') points += 1;
    else if (proof === ',') commas += 1;
    else if (proof === 'either') open ??= cell.trim();
  }
  if (points + commas > 0) {
    const choice = commas > points ? ',' : '.';
    return points > 0 && commas > 0 ? { choice, mixed: true } : { choice };
  }
  if (open === undefined) return { choice: separator === ';' ? ',' : '.' };
  // In a comma-separated file without quotation marks around it, a comma cannot be the decimal mark.
  if (separator === ',' && !open.includes(',')) return { choice: '.' };
  return { choice: open.includes(',') ? ',' : '.', example: open };
}

const byPoint = new NumberScanner();
const byComma = new NumberScanner();

function proves(cell: string): DecimalMark | 'either' | undefined {
  if (!cell.includes('.') && !cell.includes(',')) return undefined;
  if (cell.length > 60 || !/^[+\-\u2212]?[\d.,]/.test(cell)) return undefined;
  const point = wholeNumber(byPoint, cell, '.');
  const comma = wholeNumber(byComma, cell, ',');
  if (point && !comma) return '.';
  if (comma && !point) return ',';
  if (!point || byPoint.value(0) === byComma.value(0)) return undefined;
  return 'either';
}

/** Whether a number stands at the cell's start and no digit or mark of another behind it. */
function wholeNumber(scanner: NumberScanner, cell: string, mark: DecimalMark): boolean {
  return scanner.scan(cell, 0, mark) && !/^[\d.,]/.test(cell.slice(scanner.end));
}

/** The order of day and month by a file's cells of days. With points the day comes first; else a number above 12 tells. */
export function guessDateOrder(cells: Iterable<string>): Decision<DateOrder> {
  let iso = 0;
  let dayFirst = 0;
  let monthFirst = 0;
  let open: string | undefined;
  for (const cell of cells) {
    const found = /^\s*(\d{1,4})([-/.])(\d{1,2})\2(\d{2,4})/.exec(cell);
    if (!found) continue;
    const first = Number(found[1]);
    const second = Number(found[3]);
    if (found[1]!.length > 2) iso += 1;
    else if (first > 12 || (found[2] === '.' && second <= 12)) dayFirst += 1;
    else if (second > 12) monthFirst += 1;
    else open ??= cell.trim();
  }
  if (dayFirst + monthFirst > 0) {
    const choice = monthFirst > dayFirst ? 'month-day-year' : 'day-month-year';
    return dayFirst > 0 && monthFirst > 0 ? { choice, mixed: true } : { choice };
  }
  if (open === undefined || iso > 0) return { choice: 'year-month-day' };
  return { choice: 'day-month-year', example: open };
}

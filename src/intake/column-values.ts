import type { HeadRecord } from './head-table.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { stateOfWord } from './state-words.ts';
import { statusReader } from './status-words.ts';
import { TimeScanner } from './time-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { isSummaryWord, readMode, readStage } from './words.ts';

/** Cells looked at in all, and different ones of a column. */
const MOST_CELLS = 3000;
const MOST_DISTINCT = 100;

/** What a sample of a column's cells holds, as shares of those that are filled and were looked at. */
export interface ColumnValues {
  readonly filled: number;
  readonly moments: number;
  readonly days: number;
  readonly clocks: number;
  readonly numbers: number;
  /** Numbers with a unit of their own, and words of a meter. */
  readonly quantities: number;
  readonly units: number;
  readonly stages: number;
  readonly modes: number;
  /** Statuses beside a value, such as OL and ok; prefixes without their unit. */
  readonly statuses: number;
  readonly prefixes: number;
  /** Whether each cell is the whole number after the one above it, three or more in all. */
  readonly counts: boolean;
  /** The different names, in order of appearance. */
  readonly distinct: readonly string[];
}

/** Looks at each column of the first rows. */
export function columnValues(rows: readonly HeadRecord[], width: number): ColumnValues[] {
  const data = rows.filter(({ cells }) => !isSummaryWord(cells.find((cell) => cell !== '') ?? ''));
  const sample = data.slice(0, Math.max(3, Math.min(300, Math.floor(MOST_CELLS / Math.max(1, width)))));
  return Array.from({ length: width }, (_, column) => valuesOf(sample.map(({ cells }) => cells[column] ?? '')));
}

const quantity = new QuantityScanner();
const times = new TimeScanner();

function valuesOf(cells: readonly string[]): ColumnValues {
  const counts = {
    filled: 0,
    moments: 0,
    days: 0,
    clocks: 0,
    numbers: 0,
    quantities: 0,
    units: 0,
    stages: 0,
    modes: 0,
    statuses: 0,
    prefixes: 0,
  };
  const found = new Map<string, number>();
  for (const cell of cells) {
    const name = cell.slice(0, 200).trim();
    const known = found.get(name);
    if (known === undefined && (found.size === MOST_DISTINCT || stateOfWord(name) === 'blank')) continue;
    counts.filled += 1;
    found.set(name, (known ?? 0) + 1);
  }
  for (const [name, count] of found) for (const kind of kindsOf(name)) counts[kind] += count;
  const share = (count: number): number => (counts.filled === 0 ? 0 : count / counts.filled);
  return {
    filled: counts.filled,
    moments: share(counts.moments),
    days: share(counts.days),
    clocks: share(counts.clocks),
    numbers: share(counts.numbers),
    quantities: share(counts.quantities),
    units: share(counts.units),
    stages: share(counts.stages),
    modes: share(counts.modes),
    statuses: share(counts.statuses),
    prefixes: share(counts.prefixes),
    counts: countsUp(cells),
    distinct: [...found.keys()],
  };
}

function countsUp(cells: readonly string[]): boolean {
  if (cells.length < 3) return false;
  const first = Number(cells[0]);
  return cells.every((cell, at) => /^\d{1,9}$/.test(cell) && Number(cell) === first + at);
}

const readStatus = statusReader('');

type Kind =
  'moments' | 'days' | 'clocks' | 'numbers' | 'quantities' | 'units' | 'stages' | 'modes' | 'statuses' | 'prefixes';

function kindsOf(cell: string): Kind[] {
  const kinds: Kind[] = [];
  const code = cell.charCodeAt(0);
  const digit = code >= 48 && code <= 57;
  if (digit || /^[A-Z][a-z]{2,8}\.? \d/.test(cell)) {
    const read = times.scan(cell, 'day-month-year') === undefined || times.scan(cell, 'month-day-year') === undefined;
    if (read) kinds.push(times.parts === 'moment' ? 'moments' : times.parts === 'day' ? 'days' : 'clocks');
  }
  if (kinds[0] === 'moments') return kinds;
  for (const mark of ['.', ','] as const) {
    if (kinds.includes('numbers') || kinds.includes('quantities') || quantity.scan(cell, mark, 0) !== undefined)
      continue;
    kinds.push(quantity.unit !== undefined || Number.isNaN(quantity.value) ? 'quantities' : 'numbers');
  }
  if (!digit) {
    if (readStatus(cell) !== undefined) kinds.push('statuses');
    const unit = parseUnit(cell);
    if (unit !== undefined && unit.unit === undefined && unit.prefix !== 0) kinds.push('prefixes');
    if (parseUnit(cell)?.unit !== undefined) kinds.push('units');
    if (readStage(cell)) kinds.push('stages');
    if (readMode(cell)) kinds.push('modes');
  }
  return kinds;
}

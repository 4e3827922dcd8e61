import { SEPARATORS, type Separator } from '../domain/file-plan.ts';
import { headRecords, isBlankRecord, isComment } from './head-table.ts';

/** Characters of the head that are tried with each separator. */
const TRIED = 32_768;
/** Below this share of even rows a separator is taken for part of the text. */
const LEAST_SHARE = 0.2;

/** The separator of a file, and how many cells most of its rows then have. */
export interface SeparatorGuess {
  readonly separator: Separator;
  readonly width: number;
  /** Whether the first line only states it (`sep=;`). */
  readonly stated: boolean;
}

/** The separator under which most rows have the same number of cells, without another separator left inside them. */
export function guessSeparator(text: string, atEnd: boolean): SeparatorGuess {
  const sample = text.length > TRIED ? text.slice(0, TRIED) : text;
  // A first line longer than the sample is tried as far as it goes.
  const whole = (atEnd && sample.length === text.length) || !/[\r\n]/.test(sample);
  const stated = /^"?sep=([,;|\t])"?[\r\n]/i.exec(sample)?.[1] as Separator | undefined;
  const tried = (stated ? [stated] : SEPARATORS).map((separator) => ({ separator, ...fit(sample, separator, whole) }));
  const best = tried.reduce((first, second) => (second.score > first.score ? second : first));
  if (stated || best.score > 0) return { separator: best.separator, width: best.width, stated: stated !== undefined };
  return { separator: rarest(sample), width: 1, stated: false };
}

function fit(text: string, separator: Separator, whole: boolean): { score: number; width: number } {
  const rows = headRecords(text, separator, whole).filter(({ cells }) => !isBlankRecord(cells) && !isComment(cells));
  const counts = new Map<number, number>();
  for (const { cells } of rows) if (cells.length > 1) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  let width = 1;
  for (const [cells, count] of counts) if (count > (counts.get(width) ?? 0)) width = cells;
  if (width === 1) return { score: 0, width };
  const table = rows.slice(rows.findIndex(({ cells }) => cells.length === width));
  const even = table.filter(({ cells }) => cells.length === width);
  const share = even.length / table.length;
  if (share < LEAST_SHARE) return { score: 0, width: 1 };
  // A comma may be a decimal mark; the other separators hardly stand in a cell.
  const others = SEPARATORS.filter((other) => other !== separator && other !== ',');
  const sampled = even.slice(0, 100).flatMap(({ cells }) => cells.slice(0, 100));
  const clean = sampled.filter((cell) => !others.some((other) => cell.includes(other))).length / sampled.length;
  return { score: share * clean ** 2 * (1 + 0.1 * Math.min(width, 10)), width };
}

/** For a file of one column: a separator that its text does not use. */
function rarest(text: string): Separator {
  const uses = SEPARATORS.map((separator) => ({ separator, count: text.split(separator).length }));
  return uses.reduce((first, second) => (second.count < first.count ? second : first)).separator;
}

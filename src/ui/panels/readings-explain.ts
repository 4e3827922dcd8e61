import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { verdictOf } from '../../domain/verdict.ts';
import type { ReadingRow } from '../../session/answers.ts';
import { limitText } from '../band-text.ts';
import { amountText } from '../grid/computed-text.ts';
import { readingLine } from '../grid/reading-text.ts';

/** How far a reading lies from a limit of its band. */
export interface Margin {
  readonly limit: 'low' | 'high';
  /** In the SI unit; below zero outside of the band. */
  readonly distance: number;
}

/** The distance to the nearer limit; undefined where the reading has no number or no limits. */
export function marginOf({ state, value, limits }: ReadingRow): Margin | undefined {
  if (state !== 'value' || limits === undefined) return undefined;
  const low = { limit: 'low', distance: value - limits.low } as const;
  const high = { limit: 'high', distance: limits.high - value } as const;
  const nearer = high.distance < low.distance ? high : low;
  return Number.isFinite(nearer.distance) ? nearer : undefined;
}

/** A reading with its uncertainty, such as `25.27 V ± 0.15 V`. */
export function readingWithUncertainty(row: ReadingRow, mark: DecimalMark): string {
  const reading = readingLine(row, mark);
  if (row.state !== 'value' || Number.isNaN(row.uncertainty)) return reading;
  return `${reading} ± ${amountText(row.uncertainty, row, mark)}`;
}

/** How the verdict follows from the reading, its limits and the meter's uncertainty, as sentences. */
export function verdictArithmetic(row: ReadingRow, mark: DecimalMark): string {
  const verdict = verdictOf(row.verdict);
  if (verdict === 'no band') return 'No band is set for this point, stage and mode, so nothing is said of the reading.';
  if (verdict === 'not judged') return 'The band is a number that this answer cannot be held against.';
  const margin = marginOf(row);
  if (margin === undefined) return answerSentence(row, mark);
  const { uncertainty } = row;
  const distance = amountText(Math.abs(margin.distance), row, mark);
  const place = `${distance} ${placeWord(margin)} the ${margin.limit} limit`;
  if (Number.isNaN(uncertainty))
    return `The reading lies ${place}. The accuracy of ${meterName(row)} is unknown, so it is not weighed: ${verdict}.`;
  const within = Math.abs(margin.distance) < uncertainty;
  return `The reading lies ${place}, which is ${within ? 'within' : 'no less than'} the uncertainty of ${amountText(uncertainty, row, mark)}: ${verdict}.`;
}

/** The margin in the reading's unit and as a multiple of the uncertainty; undefined where there is none. */
export function marginText(row: ReadingRow, mark: DecimalMark): string | undefined {
  const margin = marginOf(row);
  if (margin === undefined) return undefined;
  const inUnit = `${amountText(margin.distance, row, mark)} to the ${margin.limit} limit`;
  if (Number.isNaN(row.uncertainty) || row.uncertainty <= 0) return inUnit;
  const ratio = (margin.distance / row.uncertainty).toFixed(1).replace('-', '\u2212');
  return `${inUnit}, ${mark === ',' ? ratio.replace('.', ',') : ratio} U`;
}

/** A limit by the name of its side, such as `low 22.8 V`; an open side says nothing. */
export function limitNames(row: ReadingRow, mark: DecimalMark): string {
  const unit = MODE_UNITS[row.mode];
  return sidesOf(row)
    .map(([side, limit]) => `${side} ${limitText(limit, unit, mark)}`)
    .join(', ');
}

function answerSentence(row: ReadingRow, mark: DecimalMark): string {
  const answer =
    row.state === 'over-range'
      ? 'Over-range lies above what the meter can show'
      : `The meter answered “${readingLine(row, mark)}”`;
  const unit = MODE_UNITS[row.mode];
  const limits = sidesOf(row).map(([side, limit]) => `the ${side} limit is ${limitText(limit, unit, mark)}`);
  return `${[answer, ...limits].join('; ')}: ${verdictOf(row.verdict)}.`;
}

/** The limits that a reading has, each with its side. */
function sidesOf({ limits }: ReadingRow): readonly (readonly ['low' | 'high', number])[] {
  if (limits === undefined) return [];
  return (['low', 'high'] as const)
    .map((side) => [side, limits[side]] as const)
    .filter(([, limit]) => Number.isFinite(limit));
}

function placeWord({ limit, distance }: Margin): string {
  if (distance === 0) return limit === 'low' ? 'above' : 'below';
  return distance > 0 === (limit === 'low') ? 'above' : 'below';
}

function meterName({ meter }: ReadingRow): string {
  return meter === '' ? 'the meter' : `meter ${meter}`;
}

import { limitsOf, type Expectation, type Limits } from '../domain/band.ts';
import { engineeringPrefix } from '../domain/prefix.ts';
import { formatShown, joinQuantity, scaleBy, type DecimalMark, type Unit } from '../domain/quantity.ts';

/** Limits are typed in or come from a table, so no meter says how many digits they have: six are the most that is written. */
const MOST_DIGITS = 6;

/** Writes a limit as shortly as it can be written. */
export function limitText(
  value: number,
  unit: Unit,
  mark: DecimalMark,
  prefix = prefixOf(value, unit === 'Ω'),
): string {
  return joinQuantity(formatShown(value, unit, { prefix, decimals: decimalsOf(scaleBy(value, -prefix)) }, mark));
}

/** `11.4 to 12.6 V`, both with the prefix of the larger. */
export function rangeText({ low, high }: Limits, unit: Unit, mark: DecimalMark): string {
  const prefix = prefixOf(Math.max(Math.abs(low), Math.abs(high)), unit === 'Ω' || unit === 'V');
  const decimals = Math.max(...[low, high].map((limit) => decimalsOf(scaleBy(limit, -prefix))));
  const text = (limit: number) => formatShown(limit, unit, { prefix, decimals }, mark);
  return `${text(low).number} to ${joinQuantity(text(high))}`;
}

/** What a reading should be, in the bench's words. */
export function expectationText(expects: Expectation, unit: Unit, mark: DecimalMark): string {
  switch (expects.kind) {
    case 'between':
      return rangeText(expects, unit, mark);
    case 'percent':
      return `${limitText(expects.nominal, unit, mark)} ± ${percentText(expects.percent, mark)}`;
    case 'at least':
    case 'at most':
      return `${expects.kind} ${limitText(expects.limit, unit, mark)}`;
    case 'open':
      return `open, or at least ${limitText(expects.limit, unit, mark)}`;
    case 'shorted':
      return `a beep, or at most ${limitText(expects.limit, unit, mark)}`;
    case 'rectified mains': {
      const reach = `from ${percentText(expects.below, mark)} below to ${percentText(expects.above, mark)} above`;
      const mains =
        expects.mains === undefined ? '' : `; ${limitText(expects.mains, 'V', mark)} where none was measured`;
      return `the peak of the mains, ${reach}${mains}`;
    }
  }
}

/** The interval that a band comes to; empty where the words have said it, or where it waits for a mains reading. */
export function limitsText(expects: Expectation, unit: Unit, mark: DecimalMark): string {
  if (expects.kind !== 'percent' && expects.kind !== 'rectified mains') return '';
  const limits = limitsOf(expects);
  return limits === undefined ? '' : rangeText(limits, unit, mark);
}

function percentText(percent: number, mark: DecimalMark): string {
  const text = String(Number(percent.toPrecision(MOST_DIGITS)));
  return `${mark === ',' ? text.replace('.', ',') : text}\u00a0%`;
}

/**
 * The engineering prefix of a limit. Plain tenths are left without one, as meters show them in their low ohm range, and a
 * junction's range of volts in diode mode (common practice, no source).
 */
function prefixOf(value: number, plainTenths: boolean): number {
  const prefix = engineeringPrefix(value);
  return prefix === -3 && plainTenths && Math.abs(value) >= 0.1 ? 0 : prefix;
}

/** Decimals that a number needs, of at most `MOST_DIGITS` digits in all. */
function decimalsOf(scaled: number): number {
  const short = String(Number(Math.abs(scaled).toPrecision(MOST_DIGITS)));
  return /^\d+\.(\d+)$/.exec(short)?.[1]?.length ?? 0;
}

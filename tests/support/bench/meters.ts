import type { Accuracy, Meter } from '../../../src/domain/meter.ts';
import { scaleBy } from '../../../src/domain/quantity.ts';
import type { Mode, Reading } from '../../../src/domain/reading.ts';
import type { Random } from './random.ts';

interface Range {
  readonly upTo: number;
  readonly prefix: number;
  readonly decimals: number;
  readonly percent: number;
  readonly counts: number;
}

/** A meter with what its maker states and what nobody on the bench knows. */
export interface SimulatedMeter {
  readonly name: string;
  readonly ranges: Readonly<Partial<Record<Mode, readonly Range[]>>>;
  /** Where continuity only beeps: the resistance, in ohms, below which it does. */
  readonly beepsBelow?: number;
  /** How much it truly reads too high, in percent. */
  readonly offset: number;
  readonly drift?: { readonly since: number; readonly offset: number };
  /** Resistance of its leads, in ohms. */
  readonly leads: number;
  /** Day on which its sticker says that it is due for calibration, at its start. */
  readonly calibrationDue: number;
}

/** The part of a reading that the meter itself makes. */
export type Answer = Pick<Reading, 'state' | 'value' | 'prefix' | 'decimals'>;

/** Ranges of one mode in steps of ten, from the smallest: `top` counts shown with one digit more or less, or up to `limit`. */
function ladder(
  top: number,
  steps: readonly (readonly [prefix: number, decimals: number, limit?: number])[],
  percent: number,
  counts: number,
): Range[] {
  return steps.map(([prefix, decimals, limit = top / 10 ** decimals]) => ({
    upTo: scaleBy(limit, prefix),
    prefix,
    decimals,
    percent,
    counts,
  }));
}

const OHMS = [[0, 1], [3, 3], [3, 2], [3, 1], [6, 3], [6, 2]] as const; // prettier-ignore
const VOLTS = [[-3, 1], [0, 3], [0, 2], [0, 1], [0, 0, 1000]] as const; // prettier-ignore
const FARADS = [[-9, 1], [-6, 3], [-6, 2], [-6, 1]] as const; // prettier-ignore

const M1: SimulatedMeter = {
  name: 'M1',
  ranges: {
    continuity: ladder(6000, [[0, 1]], 0.9, 5),
    resistance: ladder(6000, OHMS, 0.9, 3),
    diode: ladder(2000, [[0, 3]], 1, 3),
    capacitance: ladder(6000, FARADS, 2, 5),
    'DC volts': ladder(6000, VOLTS, 0.5, 2),
    'AC volts': ladder(6000, [[0, 1]], 1, 3),
    current: ladder(6000, [[0, 3], [0, 2]], 1.5, 5),
  },
  offset: -0.1,
  leads: 0.2,
  calibrationDue: Date.UTC(2027, 2, 12),
}; // prettier-ignore

const M2: SimulatedMeter = {
  name: 'M2',
  ranges: {
    resistance: ladder(4000, OHMS, 1.2, 3),
    diode: ladder(2000, [[0, 3]], 1.5, 3),
    capacitance: ladder(4000, FARADS, 3, 5),
    'DC volts': ladder(4000, VOLTS, 0.8, 3),
    'AC volts': ladder(4000, [[0, 1], [0, 0, 750]], 1.2, 4),
    current: ladder(4000, [[0, 3], [0, 2]], 2, 5),
  },
  beepsBelow: 40,
  offset: 0,
  drift: { since: Date.UTC(2026, 1, 16), offset: 1.6 },
  leads: 0.3,
  calibrationDue: Date.UTC(2026, 2, 13),
}; // prettier-ignore

const B1: SimulatedMeter = {
  name: 'B1',
  ranges: {
    resistance: ladder(60_000, [[0, 2], [3, 4], [3, 3], [3, 2], [6, 4], [6, 3]], 0.1, 5),
    ESR: ladder(60_000, [[0, 3]], 1, 10),
    'DC volts': ladder(60_000, [[0, 4], [0, 3], [0, 2]], 0.05, 5),
    'AC volts': ladder(60_000, [[0, 2]], 0.5, 20),
  },
  offset: 0.02,
  leads: 0.05,
  calibrationDue: Date.UTC(2027, 8, 24),
}; // prettier-ignore

export const SIMULATED_METERS = { M1, M2, B1 } as const;

/** The meters of the bench with the accuracies that their makers state; the shift logs write over-range as all of them show it. */
export const METERS: readonly Meter[] = Object.values(SIMULATED_METERS).map(({ name, ranges, calibrationDue }) => ({
  name,
  accuracies: (Object.entries(ranges) as [Mode, readonly Range[]][]).flatMap(([mode, steps]) =>
    steps.map((range): Accuracy => ({
      mode,
      upTo: range.upTo,
      resolution: digitOf(range),
      percent: range.percent,
      counts: range.counts,
    })),
  ),
  overRangeMark: 'OL',
  calibrationDue,
}));

/** Size of a range's last digit, in the SI unit. */
function digitOf({ prefix, decimals }: Range): number {
  return scaleBy(1, prefix - decimals);
}

/** How much a meter truly reads too high at a time, in percent. */
export function offsetAt(meter: SimulatedMeter, time: number): number {
  return meter.drift && time >= meter.drift.since ? meter.drift.offset : meter.offset;
}

/**
 * What a meter answers to a true value in the mode's SI unit: gain error, noise of a sixth of the stated accuracy, leads, range, and digits.
 * Over-range has no number, as the logs do not say the limit.
 * @throws Error where the meter lacks the mode
 */
export function answer(meter: SimulatedMeter, mode: Mode, truth: number, time: number, random: Random): Answer {
  const ohms = mode === 'continuity' || mode === 'resistance' || mode === 'ESR';
  const joined = ohms ? truth + Math.max(0, random.normal(meter.leads, 0.04)) : truth;
  if (mode === 'continuity' && meter.beepsBelow !== undefined) {
    return { state: joined < meter.beepsBelow ? 'beep' : 'no beep', value: NaN, prefix: 0, decimals: 0 };
  }
  const ranges = meter.ranges[mode];
  const widest = ranges?.at(-1);
  if (!ranges || !widest) throw new Error(`Meter ${meter.name} does not measure ${mode}.`);
  const gained = joined * (1 + offsetAt(meter, time) / 100);
  const range = ranges.find(({ upTo }) => Math.abs(gained) < upTo);
  if (!range) return { state: 'over-range', value: NaN, prefix: widest.prefix, decimals: 0 };
  const digit = digitOf(range);
  const noise = random.normal(0, (Math.abs(gained) * range.percent) / 100 / 6 + (range.counts * digit) / 6);
  const shown = Math.round(scaleBy(gained + noise, -range.prefix) * 10 ** range.decimals) / 10 ** range.decimals;
  const signed = mode === 'DC volts' ? shown : Math.max(0, shown);
  return { state: 'value', value: scaleBy(signed, range.prefix) + 0, prefix: range.prefix, decimals: range.decimals };
}

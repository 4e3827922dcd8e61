import type { Band } from '../domain/band.ts';
import type { Family, TestPoint } from '../domain/family.ts';
import { rectifiedPeak } from '../domain/mains.ts';
import { formatComputed, formatShown, joinQuantity, type DecimalMark } from '../domain/quantity.ts';
import { MODE_UNITS, type Reading } from '../domain/reading.ts';

/** How far a bulk reading may lie from the computed peak of rectified mains and still be taken for it, in percent: ripple, and mains that moved. */
const PEAK_BELOW = 10;
const PEAK_ABOVE = 3;

/** A reading with its expanded uncertainty U in the SI unit, `NaN` where unknown. */
export interface WeighedReading extends Reading {
  readonly uncertainty: number;
}

/**
 * Says where a boosted family's bulk capacitor reads no more than rectified mains: the boost stage is not running, which is a finding of its own.
 * @param live - the repair's live readings
 * @param mains - volts r.m.s. measured in the same repair or stated
 */
export function boostFindings(
  family: Family,
  live: readonly Reading[],
  mains: number | undefined,
  mark: DecimalMark,
): readonly string[] {
  if (!family.boost || mains === undefined) return [];
  const bulkPoints = new Set(family.points.filter((point) => point.role === 'bulk').map((point) => point.name));
  const peak = rectifiedPeak(mains);
  return live
    .filter(({ point, state, mode, value }) => {
      const isBulk = bulkPoints.has(point) && state === 'value' && mode === 'DC volts';
      return isBulk && value >= peak * (1 - PEAK_BELOW / 100) && value <= peak * (1 + PEAK_ABOVE / 100);
    })
    .map((reading) => {
      const read = joinQuantity(formatShown(reading.value, 'V', reading, mark));
      const computed = joinQuantity(formatComputed(peak, 'V', 0, mark));
      return `Boost stage not running: ${reading.point} reads ${read}, and rectified mains would give up to ${computed}.`;
    });
}

/**
 * Names the pins of a rail that differ from the others beyond their uncertainty, which points to a bad joint even where every pin is in band.
 * Pins are compared within one stage, by their last reading.
 * @param readings - the repair's powered readings, in order of time
 */
export function railFindings(
  family: Family,
  readings: readonly WeighedReading[],
  mark: DecimalMark,
): readonly string[] {
  const rails = new Map<string, TestPoint[]>();
  for (const point of family.points) {
    if (point.rail === undefined) continue;
    rails.set(point.rail, [...(rails.get(point.rail) ?? []), point]);
  }
  return [...rails].flatMap(([rail, points]) => {
    const last = new Map<string, WeighedReading>();
    for (const reading of readings) {
      if (reading.state === 'value' && points.some((point) => point.name === reading.point))
        last.set(reading.point, reading);
    }
    return oddPins([...last.values()]).map(({ pin, other }) => {
      const [own, others] = [pin, other].map((reading) => joinQuantity(formatShown(reading.value, 'V', reading, mark)));
      return `${pin.point} reads ${own ?? ''} where ${other.point} of the same rail (${rail}) reads ${others ?? ''}: look for a bad joint.`;
    });
  });
}

/** Warns of points that read below range in ohms: that is no resistance but a charge, so the reading tells nothing and the board can hurt. */
export function chargeFindings(readings: readonly Reading[]): readonly string[] {
  const charged = readings.filter(({ state, mode }) => state === 'below-range' && MODE_UNITS[mode] === 'Ω');
  return [...new Set(charged.map(({ point }) => point))].map(
    (point) =>
      `${point} read below range in ohms: a charge was left on it. Discharge it through a resistor, measure it, then measure again.`,
  );
}

/** Pins farther from the median pin than both uncertainties allow, each with that pin; of two, the lower is the odd one, as a bad joint only loses voltage. */
function oddPins(pins: readonly WeighedReading[]): readonly { pin: WeighedReading; other: WeighedReading }[] {
  const sorted = [...pins].sort((a, b) => b.value - a.value);
  const middle = sorted[Math.floor((sorted.length - 1) / 2)];
  if (middle === undefined) return [];
  return sorted
    .filter((pin) => Math.abs(pin.value - middle.value) > agreement(pin, middle))
    .map((pin) => ({ pin, other: middle }));
}

/** Two readings agree within the root of their squared uncertainties; where one is unknown, within two of its last digits. */
function agreement(one: WeighedReading, other: WeighedReading): number {
  const guard = (reading: WeighedReading): number =>
    Number.isNaN(reading.uncertainty) ? 2 * 10 ** (reading.prefix - reading.decimals) : reading.uncertainty;
  return Math.hypot(guard(one), guard(other));
}

/** The mains a repair's bands follow: measured, else stated by a band of its family. Volts r.m.s. */
export function mainsFor(measured: number, bands: readonly Band[]): number | undefined {
  if (!Number.isNaN(measured)) return measured;
  for (const { expects } of bands) {
    if (expects.kind === 'rectified mains' && expects.mains !== undefined) return expects.mains;
  }
  return undefined;
}

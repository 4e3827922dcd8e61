import { median } from '../statistics/descriptive/median.ts';
import { kruskalWallis, type KruskalWallis } from '../statistics/significance/kruskal-wallis.ts';
import type { ReadingLog } from '../columns/reading-log.ts';
import { medianInterval, type MedianInterval } from './median-interval.ts';
import { medianPolish, type Polish } from './median-polish.ts';
import { liveVoltages, type LiveVoltage } from './meter-residuals.ts';
import { rankChange } from './rank-change.ts';

/** How a meter reads over a stretch of time, against the others. */
export interface MeterPeriod {
  readonly meter: string;
  /** From the first reading on, or from the onset of a drift, in milliseconds. */
  readonly since: number;
  /** The last reading of the period. */
  readonly until: number;
  readonly repairs: number;
  /** How much it reads too high, in percent, with distribution-free 95 % limits of the median over repairs. */
  readonly percent: number;
  readonly low: number;
  readonly high: number;
}

export interface MeterOffsets {
  /** By meter in order of name, then in order of time; a meter without a drift has one period. */
  readonly periods: readonly MeterPeriod[];
  /** Whether the meters tend to read differently; undefined with fewer than two meters. */
  readonly test: KruskalWallis | undefined;
  /** With fewer than three periods only the difference between them is known, and which is off is not: it is split evenly. */
  readonly onlyDifference: boolean;
  /** Meters with too few repairs to say, with their number of repairs. */
  readonly tooFew: readonly { readonly meter: string; readonly repairs: number }[];
}

const FEWEST_REPAIRS = 10;
/** A drift is named only where chance would show one so clear in one of a thousand meters. */
const DRIFT_LEVEL = 0.001;
/** And where it is worth naming, in percent. */
const LEAST_DRIFT = 0.3;

/**
 * Whether a meter reads high or low, from all live voltages across families. Each logarithm is a check's level plus a meter's offset plus scatter; the
 * two are told apart by median polish. One value a repair and meter counts, the median over its checks, since boards differ as wholes. Each meter's
 * values are searched in order of time for a lasting change, the clearest is split off as a period of its own, and all is told apart anew.
 * The median of the offsets is taken as right, each meter weighing the same, a period by its part of the meter's repairs: most meters mostly are.
 * The limits hold the scatter of the meter and that of the one in the middle.
 */
export function meterOffsets(log: ReadingLog): MeterOffsets {
  const work = meterOffsetsInSteps(log);
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/** The same in steps, so that long work can be stopped between them: two for each look at all voltages, of which there are at most one more than meters. */
export function* meterOffsetsInSteps(log: ReadingLog): Generator<undefined, MeterOffsets, undefined> {
  const { meters } = log.names;
  const all = liveVoltages(log);
  yield;
  const repairsOf = (meter: number): number =>
    new Set(all.filter((voltage) => voltage.meter === meter).map(({ repair }) => repair)).size;
  const counts = meters.labels.map((name, meter) => ({ meter: name, repairs: repairsOf(meter) }));
  const voltages = all.filter(({ meter }) => counts[meter]!.repairs >= FEWEST_REPAIRS);
  const tooFew = counts.filter(({ repairs }) => repairs > 0 && repairs < FEWEST_REPAIRS);
  if (voltages.length === 0) return { periods: [], test: undefined, onlyDifference: true, tooFew };

  const onsets = new Map<number, number>();
  let polish = polishBy(voltages, onsets);
  yield;
  for (;;) {
    const drift = clearestDrift(voltages, polish, onsets);
    yield;
    if (drift === undefined) break;
    onsets.set(drift.meter, drift.since);
    polish = polishBy(voltages, onsets);
    yield;
  }
  const residuals = perRepair(voltages, polish, onsets);
  const byMeter = groupBy(residuals, ({ meter }) => meter);
  const stretches = [...groupBy(residuals, ({ period }) => period).values()].flatMap((own) => {
    const whole = byMeter.get(own[0]!.meter)!.length;
    const offset = medianInterval(own.map(({ residual }) => residual), 0.95);
    return offset === undefined ? [] : [{ own, offset, weight: own.length / whole }];
  }); // prettier-ignore
  const middle = middleOf(stretches);
  const groups = [...byMeter.values()].map((own) => own.map(({ residual }) => residual));
  return {
    periods: stretches
      .map(({ own, offset }) => periodOf(meters.label(own[0]!.meter), own, offset, middle))
      .sort((a, b) => (a.meter < b.meter ? -1 : a.meter > b.meter ? 1 : a.since - b.since)),
    test: groups.length < 2 || new Set(groups.flat()).size < 2 ? undefined : kruskalWallis(groups),
    onlyDifference: stretches.length < 3,
    tooFew,
  };
}

/** Whether taking a meter's offset off a reading moves it over a limit of its band. */
export function mayHaveTurned(
  value: number,
  limits: { readonly low: number; readonly high: number },
  percent: number,
): boolean {
  const isIn = (reading: number): boolean => reading >= limits.low && reading <= limits.high;
  return isIn(value) !== isIn(value / (1 + percent / 100));
}

/** A repair's median residual from the checks' levels by one meter, which holds the meter's offset. */
interface RepairResidual {
  readonly meter: number;
  readonly period: number;
  readonly time: number;
  readonly residual: number;
}

function columnOf({ meter, time }: Pick<LiveVoltage, 'meter' | 'time'>, onsets: ReadonlyMap<number, number>): number {
  return 2 * meter + (time >= (onsets.get(meter) ?? Infinity) ? 1 : 0);
}

function polishBy(voltages: readonly LiveVoltage[], onsets: ReadonlyMap<number, number>): Polish {
  return medianPolish({
    row: Uint32Array.from(voltages, ({ check }) => check),
    column: Uint32Array.from(voltages, (voltage) => columnOf(voltage, onsets)),
    value: Float64Array.from(voltages, ({ log }) => log),
  });
}

function perRepair(
  voltages: readonly LiveVoltage[],
  polish: Polish,
  onsets: ReadonlyMap<number, number>,
): readonly RepairResidual[] {
  const periods = polish.columns.length;
  const groups = new Map<number, LiveVoltage[]>();
  for (const voltage of voltages) {
    const key = voltage.repair * periods + columnOf(voltage, onsets);
    const group = groups.get(key);
    if (group) group.push(voltage);
    else groups.set(key, [voltage]);
  }
  return [...groups.values()]
    .map((group) => ({
      meter: group[0]!.meter,
      period: columnOf(group[0]!, onsets),
      time: group[0]!.time,
      residual: median(group.map(({ log, check }) => log - polish.rows[check]!)),
    }))
    .sort((a, b) => a.time - b.time);
}

/** The clearest lasting change of a meter that has none yet. */
function clearestDrift(
  voltages: readonly LiveVoltage[],
  polish: Polish,
  onsets: ReadonlyMap<number, number>,
): { readonly meter: number; readonly since: number; readonly p: number } | undefined {
  const steady = perRepair(voltages, polish, onsets).filter(({ meter }) => !onsets.has(meter));
  const drifts = [...groupBy(steady, ({ meter }) => meter)].flatMap(([meter, own]) => {
    const values = own.map(({ residual }) => residual);
    const change = rankChange(values, FEWEST_REPAIRS);
    if (change === undefined || change.p > DRIFT_LEVEL) return [];
    const step = 100 * (median(values.slice(change.at)) - median(values.slice(0, change.at)));
    return Math.abs(step) < LEAST_DRIFT ? [] : [{ meter, since: own[change.at]!.time, p: change.p }];
  });
  return drifts.sort((a, b) => a.p - b.p)[0];
}

/** The weighted median of the offsets, which is taken as right, and how far it is known; the mean of the two in the middle where they tie. */
function middleOf(stretches: readonly { readonly offset: MedianInterval; readonly weight: number }[]): Middle {
  const sorted = [...stretches].sort((a, b) => a.offset.median - b.offset.median);
  const half = sorted.reduce((sum, { weight }) => sum + weight, 0) / 2;
  let below = 0;
  const at = sorted.findIndex(({ weight }) => (below += weight) >= half - 1e-9);
  const chosen = sorted.slice(at, below > half + 1e-9 ? at + 1 : at + 2).map(({ offset }) => offset);
  const reaches = chosen.map(({ low, high }) => (high - low) / 2);
  return {
    offsets: chosen,
    level: chosen.reduce((sum, offset) => sum + offset.median, 0) / chosen.length,
    reach: Math.hypot(...reaches) / chosen.length,
  };
}

interface Middle {
  readonly offsets: readonly MedianInterval[];
  readonly level: number;
  readonly reach: number;
}

function periodOf(meter: string, own: readonly RepairResidual[], offset: MedianInterval, middle: Middle): MeterPeriod {
  const known = middle.offsets.includes(offset) ? 0 : middle.reach;
  const percent = (log: number): number => 100 * Math.expm1(log - middle.level);
  return {
    meter,
    since: own[0]!.time,
    until: own.at(-1)!.time,
    repairs: own.length,
    percent: percent(offset.median),
    low: percent(offset.median - Math.hypot(offset.median - offset.low, known)),
    high: percent(offset.median + Math.hypot(offset.high - offset.median, known)),
  };
}

function groupBy(
  residuals: readonly RepairResidual[],
  keyOf: (residual: RepairResidual) => number,
): ReadonlyMap<number, readonly RepairResidual[]> {
  const groups = new Map<number, RepairResidual[]>();
  for (const residual of residuals) {
    const key = keyOf(residual);
    const group = groups.get(key);
    if (group) group.push(residual);
    else groups.set(key, [residual]);
  }
  return groups;
}

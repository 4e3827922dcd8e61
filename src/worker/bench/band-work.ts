import { limitsOf, type Band, type Expectation, type Limits } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import { countOf, countText } from '../../domain/count-text.ts';
import { errorText } from '../../domain/error-text.ts';
import type { GoodRule } from '../../domain/good-rule.ts';
import { roleOf } from '../../domain/family.ts';
import { partOfPoint, soundLimits } from '../../domain/part-fault.ts';
import { markedVolts, usualPercent } from '../../domain/marking.ts';
import { isPowered, MODE_UNITS } from '../../domain/reading.ts';
import { Pauses } from '../../intake/pauses.ts';
import { proposeBand, type Proposal as Learned } from '../../learning/propose-band.ts';
import type { PastReadings } from '../../learning/standing.ts';
import { tryLimits, type Trial } from '../../learning/trial.ts';
import { median } from '../../statistics/descriptive/median.ts';
import type { LearningSettings, PastPoints, Proposal, ProposalLine } from '../contract/bands.ts';
import type { CallContext } from '../contract/calls.ts';
import type { WorkProgress } from '../contract/progress.ts';
import type { Judged } from './bench-data.ts';
import { coarsestDigit, knownGood, type KnownGood } from './known-good.ts';
import { meterCorrections } from './meter-corrections.ts';
import { checkCode, pastOf } from './past-readings.ts';

const EVERYTHING: Limits = { low: -Infinity, high: Infinity };

/** Past readings of a check, for the band editor. */
export function pastPoints(judged: Judged, check: Check, rule: GoodRule): PastPoints {
  const { log } = judged.data;
  const past = pastOf(judged, check, rule);
  const band = bandOf(judged, check);
  const limits = band && limitsOf(band.expects);
  return {
    unit: MODE_UNITS[check.mode],
    value: Float64Array.from(past.rows, (row) => log.value[row]!),
    state: Uint8Array.from(past.rows, (row) => log.state[row]!),
    standing: past.standing,
    returned: past.returned,
    rows: past.rows,
    lastDigit: coarsestDigit(judged, past.rows),
    ...(band && { band }),
    ...(limits && { limits }),
  };
}

/** What a band would have done to past boards; one that follows the mains is tried with that of each repair, measured or else stated. */
export function tryBand(judged: Judged, check: Check, expects: Expectation, rule: GoodRule): Trial {
  return trialOf(judged, pastOf(judged, check, rule), expects);
}

/** Proposals for every check of a family that has good readings; others get their turn between two checks, and it can be stopped there. */
export async function proposeFamily(
  judged: Judged,
  family: string,
  settings: LearningSettings,
  { signal, report }: CallContext<WorkProgress>,
): Promise<readonly ProposalLine[]> {
  const checks = checksOf(judged, family);
  const lines: ProposalLine[] = [];
  const pauses = new Pauses(signal);
  try {
    for (const [done, check] of checks.entries()) {
      report({ done, total: checks.length });
      await pauses.pause();
      signal.throwIfAborted();
      lines.push(proposeFor(judged, check, settings));
    }
  } finally {
    pauses.close();
  }
  return lines.filter((line) => line.readings > 0);
}

/** A band for one check from the readings of boards known to be good, or why there can be none. */
export function proposeFor(judged: Judged, check: Check, settings: LearningSettings): ProposalLine {
  const past = pastOf(judged, check, settings.rule);
  const known = knownGood(judged, check, past);
  const band = bandOf(judged, check);
  const line = {
    check,
    readings: known.numbers.length + known.good.overRange,
    ...(band && { present: { band, trial: trialOf(judged, past, band.expects) } }),
  };
  try {
    return { ...line, proposal: proposalOf(judged, check, settings, past, known, band) };
  } catch (error) {
    return { ...line, reason: errorText(error) };
  }
}

function proposalOf(
  judged: Judged,
  check: Check,
  settings: LearningSettings,
  past: PastReadings,
  { good, numbers, putRight }: KnownGood,
  present: Band | undefined,
): Proposal {
  const promise = present ? promiseOf(present.expects) : usualPromise(check, good.values);
  const keptRows = new Set(settings.keptRows);
  const proposal = proposeBand(good, {
    ...settings,
    kept: new Set(Array.from(numbers.keys()).filter((index) => keptRows.has(numbers[index]!))),
    ...(promise && { promised: promise.reach }),
  });
  const { method, scale, count, overRange, boardsWanted, normality } = proposal;
  const limits = limitsOf(proposal.expects) ?? proposal.exact;
  refuseFaults(judged, check, limits);
  const differ = differingMeters(judged, check, numbers);
  return {
    band: { ...check, expects: proposal.expects, basis: 'learned' },
    limits,
    method,
    scale,
    count,
    overRange,
    ...(normality !== undefined && { normality }),
    removed: proposal.removed.map(({ index, ...screened }) => ({
      ...screened,
      row: numbers[index]!,
      value: judged.data.log.value[numbers[index]!]!,
    })),
    putRight,
    ...(differ && { differ }),
    warnings: warningsOf(proposal, settings, promise?.by ?? '', followsMains(judged, check)),
    boardsWanted,
    trial: trialOf(judged, past, proposal.expects),
  };
}

/** @throws Error where limits would pass what is a fault of the part, as a sentence for the technician */
function refuseFaults({ data }: Judged, { family, point, mode }: Check, { low, high }: Limits): void {
  const part = partOfPoint(data.families.get(family), point);
  const sound = soundLimits(part, mode);
  if (low >= sound.low && high <= sound.high) return;
  const unit = MODE_UNITS[mode];
  throw new Error(
    sound.low > -Infinity
      ? `A band learned here would pass a short in ${part ?? point}: type in one of at least ${sound.low} ${unit} or more (common practice).`
      : `A band learned here would pass a blown ${part ?? point}: type in one of at most ${sound.high} ${unit} or less (common practice).`,
  );
}

/** Two meters that surely differ and both read this check, where nobody knows which is off. */
function differingMeters(judged: Judged, { mode }: Check, numbers: Uint32Array) {
  const { undecided } = meterCorrections(judged);
  if (undecided === undefined || (mode !== 'DC volts' && mode !== 'AC volts')) return undefined;
  const { meter, names } = judged.data.log;
  const isUsed = (name: string): boolean => numbers.some((row) => names.meters.label(meter[row]!) === name);
  return undecided.meters.every(isUsed) ? undecided : undefined;
}

/** The checks of a family that readings name, by point, stage and mode in the order of the log. */
function checksOf(judged: Judged, family: string): readonly Check[] {
  const { names } = judged.data.log;
  return Array.from({ length: names.checks.size }, (_, code) =>
    names.checks.check(code, names.families, names.points),
  ).filter((check) => check.family === family);
}

/** @param by - what promises the width that the band is measured against */
function warningsOf(
  { stopgap, twoGroups, boardsWanted, overRange, count }: Learned,
  settings: LearningSettings,
  by: string,
  isOfMains: boolean,
): readonly string[] {
  const { mark } = settings;
  const percent = (share: number): string => `${String(Number((100 * share).toPrecision(4))).replace('.', mark)} %`;
  const warnings: string[] = [];
  if (isOfMains) {
    warnings.push(
      'Without a boost stage the bulk follows the mains: a rectified-mains band follows it for each repair, and this one does not.',
    );
  }
  if (stopgap) {
    const wish = `${percent(settings.content)} of boards with ${percent(settings.confidence)} confidence`;
    warnings.push(
      `The readings are not normal, and too few to hold ${wish} without assuming so: ${countText(boardsWanted, mark)} more are wanted.`,
    );
  } else if (boardsWanted === Infinity) {
    warnings.push(`Good boards spread more than ${by} allows: no number of boards will bring the band within it.`);
  } else if (boardsWanted > 0) {
    warnings.push(
      `Wider than ${by}, since boards are few: ${countOf(boardsWanted, 'more board', mark)} would bring it within. Keep to that meanwhile.`,
    );
  }
  if (twoGroups) warnings.push('The readings fall into two groups: two revisions of the board may be mixed together.');
  if (overRange > 0 && count > 0)
    warnings.push(
      `${countText(overRange, mark)} of ${countText(overRange + count, mark)} read over-range and count as a share, not as numbers.`,
    );
  return warnings;
}

/** Half a width that a learned band is measured against, in the SI unit, and what promises it. */
interface Promised {
  readonly reach: number;
  readonly by: string;
}

function promiseOf(expects: Expectation): Promised | undefined {
  const limits = limitsOf(expects);
  if (limits === undefined || !Number.isFinite(limits.low) || !Number.isFinite(limits.high)) return undefined;
  return { reach: (limits.high - limits.low) / 2, by: 'the present band' };
}

/** What a supply without a band is measured against meanwhile: its marking, or else its usual value, with the usual tolerance. */
function usualPromise({ mode, point }: Check, values: readonly number[]): Promised | undefined {
  if (mode !== 'DC volts' || values.length === 0) return undefined;
  const marked = markedVolts(point);
  const percent = usualPercent(point);
  const by = marked === undefined ? `the usual ± ${percent} % (common practice)` : `the board’s marking ± ${percent} %`;
  return { reach: (Math.abs(marked ?? median(values)) * percent) / 100, by };
}

/** Whether a check is of a bulk capacitor that no boost stage lifts above rectified mains. */
function followsMains({ data }: Judged, { family, point, mode, stage }: Check): boolean {
  const declared = data.families.get(family);
  const role = declared?.points.find(({ name }) => name === point)?.role ?? roleOf(point);
  return declared?.boost === false && role === 'bulk' && mode === 'DC volts' && isPowered(stage);
}

function bandOf(judged: Judged, check: Check): Band | undefined {
  return judged.standard.table.bands[checkCode(judged, check)];
}

function trialOf({ data: { log }, standard }: Judged, past: PastReadings, expects: Expectation): Trial {
  if (expects.kind !== 'rectified mains') return tryLimits(log, past, limitsOf(expects) ?? EVERYTHING);
  const ofEach = Array.from(standard.mains, (mains) => limitsOf(expects, Number.isNaN(mains) ? undefined : mains));
  return tryLimits(log, past, ofEach);
}

import { lastDigit } from '../../domain/quantity.ts';
import { limitsOf, type Band, type Expectation, type Limits } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { Family } from '../../domain/family.ts';
import { MODE_UNITS, STATES } from '../../domain/reading.ts';
import { VALUE } from '../../columns/reading-log.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { median } from '../../statistics/descriptive/median.ts';
import { proposeBand, type GoodReadings, type Proposal } from '../../learning/propose-band.ts';
import { pastReadings, RETURNED_AND_HELD, STANDINGS, type PastReadings } from '../../learning/standing.ts';
import { tryLimits } from '../../learning/trial.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import type { Trial } from '../../learning/trial.ts';
import type { LearningSettings, PastPoints, ProposalLine } from '../contract/bands.ts';
import { rowsOf } from './repair-stories.ts';

const GOOD = STANDINGS.indexOf('good');
const OVER_RANGE = STATES.indexOf('over-range');

/** Past readings of a check, for the band editor. */
export function pastPoints(judged: Judged, check: Check): PastPoints {
  const { log } = judged.data;
  const past = pastOf(judged, check);
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

/** What a band would have done to past boards; a band that follows the mains is tried with the mains it states. */
export function tryBand(judged: Judged, check: Check, expects: Expectation): Trial {
  return trialOf(judged, pastOf(judged, check), limitsOf(expects));
}

/** A band for one check from the readings of boards known to be good, or why there can be none. */
export function proposeFor(judged: Judged, check: Check, settings: LearningSettings): ProposalLine {
  const past = pastOf(judged, check);
  const { log } = judged.data;
  const rows = past.rows.filter((row, index) => past.standing[index] === GOOD && isAnswer(log.state[row]!));
  const numbers = rows.filter((row) => log.state[row] === VALUE);
  const good: GoodReadings = {
    values: Array.from(numbers, (row) => log.value[row]!),
    overRange: rows.length - numbers.length,
    lastDigit: coarsestDigit(judged, numbers),
    nonNegative: MODE_UNITS[check.mode] === 'Ω' || MODE_UNITS[check.mode] === 'F',
  };
  const band = bandOf(judged, check);
  const promised = band ? promiseOf(band.expects) : usualPromise(check, good.values);
  const line = {
    check,
    readings: rows.length,
    ...(band && { present: { band, trial: trialOf(judged, past, limitsOf(band.expects)) } }),
  };
  let proposal: Proposal;
  try {
    proposal = proposeBand(good, {
      ...settings,
      kept: new Set(Array.from(numbers.keys()).filter((index) => settings.keptRows.includes(numbers[index]!))),
      ...(promised !== undefined && { promised }),
    });
  } catch (error) {
    return { ...line, reason: error instanceof Error ? error.message : String(error) };
  }
  const { method, scale, count, overRange, boardsWanted, normality } = proposal;
  const limits = limitsOf(proposal.expects) ?? proposal.exact;
  return {
    ...line,
    proposal: {
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
        value: log.value[numbers[index]!]!,
      })),
      warnings: warningsOf(proposal, settings),
      boardsWanted,
      trial: trialOf(judged, past, limits),
    },
  };
}

/** The checks of a family that readings name, by point, stage and mode in the order of the log. */
export function checksOf(judged: Judged, family: string): readonly Check[] {
  const { names } = judged.data.log;
  return Array.from({ length: names.checks.size }, (_, code) =>
    names.checks.check(code, names.families, names.points),
  ).filter((check) => check.family === family);
}

function warningsOf(proposal: Proposal, settings: LearningSettings): readonly string[] {
  const { stopgap, twoGroups, boardsWanted, overRange, count } = proposal;
  const percent = (share: number): string => `${Number((100 * share).toPrecision(4))} %`;
  const warnings: string[] = [];
  if (stopgap) {
    const wish = `${percent(settings.content)} of boards with ${percent(settings.confidence)} confidence`;
    warnings.push(
      `The readings are not normal, and too few to hold ${wish} without assuming so: ${boardsWanted} more are wanted.`,
    );
  } else if (boardsWanted === Infinity) {
    warnings.push(
      'Good boards spread more than the present band allows: no number of boards will bring them within it.',
    );
  } else if (boardsWanted > 0) {
    warnings.push(
      `Wider than the present band, since boards are few: ${boardsWanted} more would bring it within. Keep the present one meanwhile.`,
    );
  }
  if (twoGroups) warnings.push('The readings fall into two groups: two revisions of the board may be mixed together.');
  if (overRange > 0 && count > 0)
    warnings.push(`${overRange} of ${overRange + count} read over-range and count as a share, not as numbers.`);
  return warnings;
}

/** Half the width of a band that is set already: what a learned one is measured against. */
function promiseOf(expects: Expectation): number | undefined {
  const limits = limitsOf(expects);
  if (limits === undefined || !Number.isFinite(limits.low) || !Number.isFinite(limits.high)) return undefined;
  return (limits.high - limits.low) / 2;
}

/** What a rail without a band is measured against meanwhile: ±5 % of its usual value (common practice, no source). */
function usualPromise(check: Check, values: readonly number[]): number | undefined {
  return check.mode === 'DC volts' && values.length > 0 ? Math.abs(median(values)) * 0.05 : undefined;
}

function bandOf(judged: Judged, check: Check): Band | undefined {
  return judged.standard.table.bands[checkCode(judged, check)];
}

function trialOf(judged: Judged, past: PastReadings, limits: Limits | undefined): Trial {
  return tryLimits(judged.data.log, past, limits ?? { low: -Infinity, high: Infinity });
}

function isAnswer(state: number): boolean {
  return state === VALUE || state === OVER_RANGE;
}

function coarsestDigit(judged: Judged, rows: Uint32Array): number {
  const { log } = judged.data;
  let coarsest = -Infinity;
  for (const row of rows) {
    if (log.state[row] !== VALUE) continue;
    coarsest = Math.max(coarsest, lastDigit({ prefix: log.prefix[row]!, decimals: log.decimals[row]! }));
  }
  return coarsest === -Infinity ? 0 : coarsest;
}

function checkCode(judged: Judged, { family, point, stage, mode }: Check): number {
  const { names } = judged.data.log;
  for (let code = 0; code < names.checks.size; code += 1) {
    const known = names.checks.check(code, names.families, names.points);
    if (known.family === family && known.point === point && known.stage === stage && known.mode === mode) return code;
  }
  return -1;
}

const known = new WeakMap<Judged, Map<number, PastReadings>>();

/** The past readings of a check, sorted once for each judging: a limit that moves asks for them again and again. */
function pastOf(judged: Judged, check: Check): PastReadings {
  const code = checkCode(judged, check);
  if (code < 0) return { rows: new Uint32Array(), standing: new Uint8Array(), returned: new Uint8Array() };
  const byCheck = known.get(judged) ?? new Map<number, PastReadings>();
  known.set(judged, byCheck);
  const past = byCheck.get(code) ?? sortPast(judged, check, code);
  byCheck.set(code, past);
  return past;
}

function sortPast(judged: Judged, check: Check, code: number): PastReadings {
  const family = familyNamed(judged.data, check.family) ?? emptyFamily(check.family);
  return pastReadings(judged.data.log, code, {
    repairs: judged.data.repairs,
    family,
    rule: RETURNED_AND_HELD,
    rowsByRepair: judged.rowsByRepair,
    hasFailed: failuresOf(judged, family),
  });
}

/** Asks the evidence of each repair once, when it is first wanted. */
function failuresOf(judged: Judged, family: Family): (repair: string, part: string) => boolean {
  const asked = new Map<string, ReadonlyMap<string, Evidence>>();
  return (repair, part) => {
    let evidence = asked.get(repair);
    if (evidence === undefined) {
      evidence = evidenceOf(judged.data.log, judged.verdicts, rowsOf(judged, repair), family);
      asked.set(repair, evidence);
    }
    return evidence.get(part)?.finding === 'failed';
  };
}

function emptyFamily(name: string): Family {
  return { name, boost: false, points: [], parts: [] };
}

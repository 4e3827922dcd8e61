import { limitsOf, type Band, type Expectation, type Limits } from '../domain/band.ts';
import type { Family } from '../domain/family.ts';
import { partOfPoint, soundLimitsAt } from '../domain/part-fault.ts';
import { FAIL, HIGH, LOW, NOT_JUDGED, PASS } from '../domain/verdict.ts';
import { MODE_UNITS, STATES, type Mode, type State } from '../domain/reading.ts';
import type { LogNames } from '../columns/reading-log.ts';

/** A continuity tester surely beeps below the first and surely not above the second, in ohms (common practice, no source). */
const BEEP_BELOW = 20;
const BEEP_ABOVE = 50;

/** The bands of a log, compiled for judging: one entry for each of its checks. */
export interface BandTable {
  readonly bands: readonly (Band | undefined)[];
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** 1 where the limits follow the mains reading of the repair. */
  readonly followsMains: Uint8Array;
  /** Verdict code of every state that is not a number: `check · STATES.length + state`. */
  readonly byState: Uint8Array;
}

/**
 * Compiles `bands` for the checks of a log. A band with a stage outweighs one that holds at every stage; of equals the last holds.
 * No band passes what is a fault of the part, whatever it was learned from: its limits end there.
 * @param families - by name; where a family or a point is not declared, the point's name tells the part
 */
export function compileBands(
  names: LogNames,
  bands: readonly Band[],
  families: ReadonlyMap<string, Family> = new Map(),
): BandTable {
  const byKey = new Map(bands.map((band) => [bandKey(band.family, band.point, band.mode, band.stage), band]));
  const { checks } = names;
  const table = {
    bands: new Array<Band | undefined>(checks.size),
    low: new Float64Array(checks.size).fill(-Infinity),
    high: new Float64Array(checks.size).fill(Infinity),
    followsMains: new Uint8Array(checks.size),
    byState: new Uint8Array(checks.size * STATES.length),
  };
  for (let code = 0; code < checks.size; code += 1) {
    const { family, point, stage, mode } = checks.check(code, names.families, names.points);
    const band = byKey.get(bandKey(family, point, mode, stage)) ?? byKey.get(bandKey(family, point, mode, undefined));
    if (band === undefined) continue;
    table.bands[code] = band;
    table.followsMains[code] = band.expects.kind === 'rectified mains' ? 1 : 0;
    const limits = limitsOf(band.expects);
    const sound = soundLimitsAt(partOfPoint(families.get(family), point), mode, stage);
    table.low[code] = Math.max(limits?.low ?? NaN, sound.low);
    table.high[code] = Math.min(limits?.high ?? NaN, sound.high);
    STATES.forEach((state, index) => {
      table.byState[code * STATES.length + index] = faultOf(state, sound) ?? judgeState(state, band.expects, mode);
    });
  }
  return table;
}

/**
 * The verdict on an answer that is not a number. Over-range means "above the range": it passes *open* and *at least* and fails a band with
 * an upper limit. A beep fails *open* and limits above every tester's threshold; no beep fails *shorted* and *at most* up to that threshold.
 * What neither settles is not judged. Below-range in ohms is no resistance but a charge left on the board.
 */
export function judgeState(state: State, expects: Expectation, mode: Mode): number {
  const upper = expects.kind === 'at most' || expects.kind === 'shorted';
  const lower = expects.kind === 'at least' || expects.kind === 'open';
  switch (state) {
    case 'over-range':
      return lower ? PASS : FAIL | HIGH;
    case 'below-range':
      if (MODE_UNITS[mode] === 'Ω') return NOT_JUDGED;
      return upper ? PASS : FAIL | LOW;
    case 'beep':
      if (upper) return PASS;
      if (expects.kind === 'open' || lowLimit(expects) > BEEP_ABOVE) return FAIL | LOW;
      return NOT_JUDGED;
    case 'no beep':
      if (expects.kind === 'open') return PASS;
      if (expects.kind === 'at most' || expects.kind === 'shorted')
        return expects.limit <= BEEP_ABOVE ? FAIL | HIGH : NOT_JUDGED;
      return expects.kind === 'at least' && expects.limit <= BEEP_BELOW ? PASS : NOT_JUDGED;
    case 'blank':
    case 'value':
      return NOT_JUDGED;
  }
}

/** The verdict on an answer without a number that is a fault by itself; undefined where it is none. */
function faultOf(state: State, { low, high }: Limits): number | undefined {
  if (state === 'beep' && low > -Infinity) return FAIL | LOW;
  return (state === 'over-range' || state === 'no beep') && high < Infinity ? FAIL | HIGH : undefined;
}

function lowLimit(expects: Expectation): number {
  return limitsOf(expects)?.low ?? -Infinity;
}

function bandKey(family: string, point: string, mode: string, stage: string | undefined): string {
  return JSON.stringify([family, point, mode, stage ?? '']);
}

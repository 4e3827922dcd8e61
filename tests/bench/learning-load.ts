import { LogBuilder } from '../../src/columns/log-builder.ts';
import type { Limits } from '../../src/domain/band.ts';
import { RETURNED_AND_HELD } from '../../src/domain/good-rule.ts';
import { MODES, SPECIMENS, STAGES, STATES } from '../../src/domain/reading.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { judgeValue } from '../../src/judging/judge.ts';
import { expandedUncertainty } from '../../src/judging/uncertainty.ts';
import { FAIL, PASS, VERDICT_MASK } from '../../src/domain/verdict.ts';
import { DEFAULT_SETTINGS, proposeBand } from '../../src/learning/propose-band.ts';
import { normalCdf } from '../../src/statistics/distributions/normal.ts';
import { proposeFamily, tryBand } from '../../src/worker/bench/band-work.ts';
import { EMPTY_BENCH, judgeBench, type Judged } from '../../src/worker/bench/bench-data.ts';
import { Random } from '../support/bench/random.ts';
import { LEARNING } from '../support/learning-settings.ts';

/** What samples are drawn from; the shifted one is as skewed as the other and spans no decades. */
const SHAPES = ['normal', 'exponential', 'shifted exponential'] as const;
type Shape = (typeof SHAPES)[number];

/** In how many samples a learned 95/95 band held 95 % of the distribution that they were drawn from, and how they were learned. */
export interface CoverageFigure {
  readonly boards: number;
  readonly shape: Shape;
  readonly trials: number;
  readonly held: number;
  readonly distributionFree: number;
}

/** Verdicts on readings whose true value is known, by a meter that errs within its specification. */
export interface RiskFigure {
  readonly error: MeterError;
  readonly trials: number;
  /** Of readings whose true value lies just outside of a limit, how many pass, and how many would without the guard. */
  readonly falsePass: number;
  readonly plainPass: number;
  /** Of readings whose true value lies just inside, how many fail, and how many would without the guard. */
  readonly falseFail: number;
  readonly plainFail: number;
}

/** How a meter errs: anywhere within its specification alike, or normally with the same standard uncertainty. */
const METER_ERRORS = ['rectangular', 'normal'] as const;
type MeterError = (typeof METER_ERRORS)[number];

export interface LearningSpeed {
  readonly points: number;
  /** Trying a band on one check, in milliseconds. */
  readonly tries: readonly number[];
  readonly checks: number;
  readonly boards: number;
  /** Proposals for a family, in milliseconds: at first, and again with other settings. */
  readonly proposals: readonly number[];
  /** Times that progress was told in each. */
  readonly reports: number;
}

const BOARDS: Readonly<Record<Shape, readonly number[]>> = {
  normal: [5, 10, 30, 100],
  exponential: [100, 200, 400],
  'shifted exponential': [100, 200, 400],
};
const SHIFT = 10;

/** Draws samples of known distributions, learns a band from each, and counts those that hold what they should. */
export function measureCoverage({ trials }: { readonly trials: number }): readonly CoverageFigure[] {
  return SHAPES.flatMap((shape) => BOARDS[shape].map((boards) => coverageOf(shape, boards, trials)));
}

function coverageOf(shape: Shape, boards: number, trials: number): CoverageFigure {
  const random = new Random(boards);
  const draw = (): number => {
    if (shape === 'normal') return random.normal(0, 1);
    return random.exponential(1) + (shape === 'exponential' ? 0 : SHIFT);
  };
  const shareIn = ({ low, high }: Limits): number => {
    if (shape === 'normal') return normalCdf(high) - normalCdf(low);
    const from = shape === 'exponential' ? 0 : SHIFT;
    return Math.exp(-Math.max(0, low - from)) - Math.exp(-Math.max(0, high - from));
  };
  let [held, distributionFree] = [0, 0];
  for (let trial = 0; trial < trials; trial += 1) {
    const values = Array.from({ length: boards }, draw);
    const { exact, method } = proposeBand({ values, overRange: 0, lastDigit: -9 });
    if (shareIn(exact) >= DEFAULT_SETTINGS.content) held += 1;
    if (method === 'distribution-free') distributionFree += 1;
  }
  return { boards, shape, trials, held, distributionFree };
}

/** Judges readings of true values just beyond and just within 12.6 V, where the risk is greatest, by a meter of ±(0.5 % + 3 counts). */
export function measureRisk({ trials }: { readonly trials: number }): readonly RiskFigure[] {
  return METER_ERRORS.map((error) => riskOf(error, trials));
}

function riskOf(error: MeterError, trials: number): RiskFigure {
  const random = new Random(12);
  const [low, high, lastDigit] = [11.4, 12.6, -2];
  const accuracy = { mode: 'DC volts', upTo: 60, percent: 0.5, counts: 3 } as const;
  const reach = (high * accuracy.percent) / 100 + accuracy.counts * 10 ** lastDigit;
  const counts = { falsePass: 0, plainPass: 0, falseFail: 0, plainFail: 0 };
  for (let trial = 0; trial < trials; trial += 1) {
    const isInside = trial % 2 === 0;
    const truth = high + (isInside ? -1e-4 : 1e-4);
    const off = error === 'normal' ? random.normal(0, reach / Math.sqrt(3)) : random.uniform(-reach, reach);
    const reading = Math.round((truth + off) * 100) / 100;
    const verdict = judgeValue(reading, low, high, expandedUncertainty(reading, lastDigit, accuracy)) & VERDICT_MASK;
    if (isInside) {
      if (verdict === FAIL) counts.falseFail += 1;
      if (reading > high) counts.plainFail += 1;
    } else {
      if (verdict === PASS) counts.falsePass += 1;
      if (reading <= high) counts.plainPass += 1;
    }
  }
  return { error, trials: trials / 2, ...counts };
}

/** Times a try of a band on one large check, and the proposals of a family. */
export async function measureSpeed(load: {
  readonly points: number;
  readonly checks: number;
  readonly boards: number;
  readonly rounds: number;
}): Promise<LearningSpeed> {
  const { points, checks, boards, rounds } = load;
  const large = boardsOf(1, points);
  const check = { family: 'SISKIN-40', point: 'rail 1', stage: 'live', mode: 'DC volts' } as const;
  const tries = Array.from({ length: rounds }, (_, round) => {
    const start = performance.now();
    tryBand(large, check, { kind: 'between', low: 11.5 + round / 100, high: 12.5 }, RETURNED_AND_HELD);
    return performance.now() - start;
  });
  const family = boardsOf(checks, boards);
  const proposals: number[] = [];
  let reports = 0;
  for (const content of [0.95, 0.99, 0.9]) {
    const settings = { ...LEARNING, content };
    const start = performance.now();
    reports = 0;
    await proposeFamily(family, check.family, settings, {
      signal: new AbortController().signal,
      report: () => { reports += 1; }, // prettier-ignore
    });
    proposals.push(performance.now() - start);
  }
  return { points, tries, checks, boards, proposals, reports };
}

/** Boards that were all returned working, each with one live reading of every rail, by three meters. */
function boardsOf(rails: number, boards: number): Judged {
  const random = new Random(rails);
  const builder = new LogBuilder(undefined, rails * boards);
  const { names } = builder;
  const family = names.families.intern('SISKIN-40');
  const stage = STAGES.indexOf('live');
  const mode = MODES.indexOf('DC volts');
  const codes = Array.from({ length: rails }, (_, rail) =>
    names.checks.intern(family, names.points.intern(`rail ${rail + 1}`), stage, mode),
  );
  const meters = ['M1', 'M2', 'B1'].map((name) => names.meters.intern(name));
  const file = names.files.intern('load.csv');
  const repairs = new Map<string, Repair>();
  for (let board = 0; board < boards; board += 1) {
    const id = `T-${board}`;
    const repair = names.repairs.intern(id);
    const days = { received: NaN, returned: NaN };
    repairs.set(id, { id, family: 'SISKIN-40', complaint: '', outcome: 'returned working', replaced: [], ...days });
    const gain = board % 3 === 1 ? 1.016 : 1;
    for (const [rail, check] of codes.entries()) {
      const value = Math.round(1000 * gain * random.normal(12, 0.06)) / 1000;
      const time = Date.UTC(2026, 0, 1) + board * 3_600_000 + rail;
      const own = [time, value, 0, 3, STATES.indexOf('value'), SPECIMENS.indexOf('board')] as const;
      builder.push(...own, repair, check, meters[board % 3]!, file, board + 2);
    }
  }
  return judgeBench({ ...EMPTY_BENCH, log: builder.finish(), repairs });
}

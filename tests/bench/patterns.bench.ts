import { partClass } from '../../src/domain/family.ts';
import { secondsPerCheck } from '../../src/patterns/check-seconds.ts';
import { complaintMatrix } from '../../src/patterns/complaints.ts';
import { compareHolding, holdingOf, holdingTimes } from '../../src/patterns/do-repairs-hold.ts';
import { pairsFailingTogether } from '../../src/patterns/failing-together.ts';
import { failureSignatures } from '../../src/patterns/failure-signatures.ts';
import { inCircuitVerdicts } from '../../src/patterns/in-circuit-verdicts.ts';
import { estimateMaskedFailures } from '../../src/patterns/masked-failures.ts';
import { meterOffsets } from '../../src/patterns/meter-offsets.ts';
import { partsOverTime } from '../../src/patterns/over-time.ts';
import { countPartFailures } from '../../src/patterns/part-failures.ts';
import { kitCurve, neededParts, smallestKit } from '../../src/patterns/parts-kit.ts';
import { probingOrder } from '../../src/patterns/probing-order.ts';
import { renewalOf } from '../../src/patterns/renewal.ts';
import { standingOut } from '../../src/patterns/standing-out.ts';
import { stockFor } from '../../src/patterns/stock.ts';
import { whetherItPays } from '../../src/patterns/whether-it-pays.ts';
import { simulateBench } from '../support/bench/simulate.ts';
import { examineBench, maskedScores, probingChecks, type ExaminedBench } from '../support/examined-bench.ts';

const SIZES = [100, 300, 1000] as const;
const SEEDS = Array.from({ length: 20 }, (_, index) => index + 1);
const LEVEL = 0.95;

type Print = (line: string) => void;

/** What becomes of a family's parts in the long run, which no bench sees: how often each fails, and each pair together. */
interface LongRun {
  readonly rate: (part: string) => number;
  readonly lift: (a: string, b: string) => number;
}

/** Scores the patterns against the truth of the simulated bench, and times them. */
export function run(print: Print): Promise<void> {
  const longRun = longRunOf(40_000);
  for (const repairs of SIZES) scoreSize(repairs, longRun, print);
  timeLargeFamily(print);
  return Promise.resolve();
}

function scoreSize(repairs: number, longRun: ReadonlyMap<string, LongRun>, print: Print): void {
  const tally = {
    all: [0, 0],
    masking: [0, 0],
    seen: [0, 0],
    truePairs: [0, 0],
    falsePairs: 0,
    score: { pairs: 0, inferred: 0, naive: 0, equal: 0 },
  };
  const offsets: { readonly error: number; readonly holds: boolean; readonly onset: number }[] = [];
  for (const seed of SEEDS) {
    const bench = examineBench({ seed, repairs });
    for (const { family, repairs: own } of bench.families) {
      const truth = longRun.get(family.name)!;
      const masks = new Set(family.parts.filter(({ nodes }, at, all) =>
          all.some((other, place) => place !== at && other.nodes.join() === nodes.join())).map(({ designator }) => designator)); // prettier-ignore
      const { parts, masked } = estimateMaskedFailures(family.parts, own, LEVEL);
      for (const { part, rate } of parts) {
        if (rate === undefined) continue;
        const inside = rate.low <= truth.rate(part) && truth.rate(part) <= rate.high ? 1 : 0;
        const groups = [tally.all, masks.has(part) ? tally.masking : tally.seen];
        for (const group of groups) {
          group[0]! += inside;
          group[1]! += 1;
        }
      }
      const scores = maskedScores(bench, own, masked);
      for (const key of ['pairs', 'inferred', 'naive', 'equal'] as const) tally.score[key] += scores[key];
      for (const {
        parts: [a, b],
        adjusted,
        together,
      } of pairsFailingTogether(own)) {
        const isTrue = truth.lift(a, b) > 1;
        const isFound = adjusted <= 0.05;
        if (isTrue && together > 0) tally.truePairs[1]! += 1;
        if (isTrue && isFound) tally.truePairs[0]! += 1;
        if (!isTrue && isFound) tally.falsePairs += 1;
      }
    }
    const drifted = meterOffsets(bench.log).periods.filter(({ meter }) => meter === 'M2')[1];
    if (drifted) {
      offsets.push({
        error: Math.abs(drifted.percent - 1.6),
        holds: drifted.low <= 1.6 && 1.6 <= drifted.high,
        onset: (drifted.since - Date.UTC(2026, 1, 16)) / 86_400_000,
      });
    }
  }
  const { score } = tally;
  const percent = ([part, whole]: readonly number[]): string => `${((100 * part!) / whole!).toFixed(1)} %`;
  const brier = (sum: number): string => (sum / score.pairs).toFixed(4);
  const middle = (values: readonly number[]): string => [...values].sort((a, b) => a - b)[values.length >> 1]?.toFixed(2) ?? '-'; // prettier-ignore
  print(`${repairs} repairs, ${SEEDS.length} benches`);
  print(`  long-run failure rates within their 95 % intervals: ${percent(tally.all)} of ${tally.all[1]!} (masking parts ${percent(tally.masking)}, others ${percent(tally.seen)})`); // prettier-ignore
  print(`  Brier score of ${score.pairs} suspects: inferred ${brier(score.inferred)}, blame what reads short ${brier(score.naive)}, equal shares ${brier(score.equal)}`); // prettier-ignore
  print(`  pairs at 5 %: found ${tally.truePairs[0]!} of ${tally.truePairs[1]!} true ones seen together, and ${tally.falsePairs} false ones`); // prettier-ignore
  print(`  M2 reads 1.6 % high: drift found on ${offsets.length} benches; error median ${middle(offsets.map(({ error }) => error))} %, within 0.2 % on ${offsets.filter(({ error }) => error <= 0.2).length}, interval holds it on ${offsets.filter(({ holds }) => holds).length}; onset off by ${middle(offsets.map(({ onset }) => Math.abs(onset)))} days`); // prettier-ignore
}

/** One long simulation, whose truth alone is read. */
function longRunOf(repairs: number): ReadonlyMap<string, LongRun> {
  const counts = new Map<string, { repairs: number; readonly together: Map<string, number> }>();
  for (const { family, failed } of simulateBench({ seed: 4711, repairs, perDay: 200 }).truth) {
    const own = counts.get(family) ?? { repairs: 0, together: new Map<string, number>() };
    counts.set(family, own);
    own.repairs += 1;
    const parts = failed.map(({ part }) => part);
    for (const a of parts)
      for (const b of parts) own.together.set(`${a} ${b}`, (own.together.get(`${a} ${b}`) ?? 0) + 1);
  }
  return new Map(
    [...counts].map(([family, { repairs: whole, together }]) => {
      const rate = (a: string, b = a): number => (together.get(`${a} ${b}`) ?? 0) / whole;
      return [family, { rate, lift: (a: string, b: string) => rate(a, b) / (rate(a) * rate(b)) }];
    }),
  );
}

function timeLargeFamily(print: Print): void {
  const bench = examineBench({ seed: 7, repairs: 18_000, perDay: 40 });
  const large = bench.families.map((one) => ({ ...one, readings: readingsOf(bench, one.family.name) }));
  const { family, repairs, readings } = large.reduce((a, b) => (b.repairs.length > a.repairs.length ? b : a));
  const others = bench.families.filter((one) => one.family !== family).flatMap((one) => one.repairs);
  const asOf = Math.max(...bench.records.map(({ returned }) => (Number.isNaN(returned) ? 0 : returned)));
  const prices = new Map(family.parts.map(({ designator }) => [designator, partClass(designator) === 'U' ? 3 : 1]));
  const needs = repairs.map(neededParts);
  const checks = probingChecks(bench, family);
  const hold = (kept: typeof repairs) => holdingTimes(kept, bench.records, asOf).lifetimes;
  const own = new Set(repairs.map(({ repair }) => bench.log.names.repairs.find(repair)));
  const rows = bench.rowsByRepair.filter((_, code) => own.has(code));
  const jobs: readonly (readonly [string, () => unknown])[] = [
    ['counts', () => countPartFailures(repairs)],
    ['masked failures', () => estimateMaskedFailures(family.parts, repairs, LEVEL)],
    ['in-circuit verdicts', () => inCircuitVerdicts(repairs)],
    ['pairs', () => pairsFailingTogether(repairs)],
    ['signatures', () => failureSignatures(repairs, Math.max(2, Math.ceil(repairs.length / 100)))],
    ['complaints', () => complaintMatrix(repairs)],
    ['standing out', () => standingOut(repairs, others)],
    ['over time', () => partsOverTime(repairs)],
    ['holding', () => [
      holdingOf(hold(repairs)),
      compareHolding(hold(repairs.filter((repair) => renewalOf(repair) === 'whole group renewed')), hold(repairs.filter((repair) => renewalOf(repair) === 'only what measured bad'))),
    ]],
    ['seconds per check', () => secondsPerCheck(bench.log, rows)],
    ['probing order', () => probingOrder(repairs, checks)],
    ['kit', () => [smallestKit(needs, 0.9, prices), kitCurve(needs, 0.5)]],
    ['stock', () => stockFor(repairs, 4, 0.95)],
    ['whether it pays', () => whetherItPays(repairs, prices, 40)],
  ]; // prettier-ignore
  const times = jobs.map(([name, job]) => ({ name, time: timeOf(job) }));
  const total = times.reduce((sum, { time }) => sum + time, 0);
  print(`${family.name}: ${repairs.length} repairs, ${readings} readings`);
  print(`  all its patterns in ${total.toFixed(0)} ms, median of five calls: ${times.map(({ name, time }) => `${name} ${time.toFixed(0)}`).join(', ')}`); // prettier-ignore
  print(`  meters, over all ${bench.log.count} readings of the bench: ${timeOf(() => meterOffsets(bench.log)).toFixed(0)} ms`); // prettier-ignore
}

function readingsOf(bench: ExaminedBench, name: string): number {
  const { checks, families } = bench.log.names;
  const family = families.find(name);
  return bench.log.check.reduce((sum, check) => sum + (checks.familyCode(check) === family ? 1 : 0), 0);
}

/** Median of five calls, in milliseconds. */
function timeOf(job: () => unknown): number {
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    job();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[2]!;
}

import { pairsFailingTogether } from '../../src/patterns/failing-together.ts';
import { failureModel } from '../../src/patterns/failure-model/failure-model.ts';
import { meterOffsets } from '../../src/patterns/meter-offsets.ts';
import { partRates } from '../../src/patterns/part-rates.ts';
import { simulateBench } from '../support/bench/simulate.ts';
import { callInPage, openBenchPage } from '../support/browser-bench.ts';
import { examineBench, maskedScores, type ExaminedBench } from '../support/examined-bench.ts';
import type { PatternsTimes } from './patterns-load.ts';

const SIZES = [100, 300, 1000] as const;
const SEEDS = Array.from({ length: 20 }, (_, index) => index + 1);

type Print = (line: string) => void;

/** What becomes of a family's parts in the long run, which no bench sees: how often each fails, and each pair together. */
interface LongRun {
  readonly rate: (part: string) => number;
  readonly lift: (a: string, b: string) => number;
}

/** Scores the patterns against the truth of the simulated bench, and times them. */
export async function run(print: Print): Promise<void> {
  const longRun = longRunOf(40_000);
  for (const repairs of SIZES) scoreSize(repairs, longRun, print);
  timeMeters(print);
  await timeLargeFamily(print);
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
  let enoughSince = 0;
  for (const seed of SEEDS) {
    const bench = examineBench({ seed, repairs });
    for (const { family, repairs: own } of bench.families) {
      const truth = longRun.get(family.name)!;
      const masks = new Set(family.parts.filter(({ nodes }, at, all) =>
          all.some((other, place) => place !== at && other.nodes.join() === nodes.join())).map(({ designator }) => designator)); // prettier-ignore
      const model = failureModel(family.parts, own);
      for (const { part, rate } of partRates(model)) {
        if (rate === undefined) continue;
        const inside = rate.low <= truth.rate(part) && truth.rate(part) <= rate.high ? 1 : 0;
        const groups = [tally.all, masks.has(part) ? tally.masking : tally.seen];
        for (const group of groups) {
          group[0]! += inside;
          group[1]! += 1;
        }
      }
      const scores = maskedScores(bench, own, model);
      for (const key of ['pairs', 'inferred', 'naive', 'equal'] as const) tally.score[key] += scores[key];
      for (const {
        parts: [a, b],
        adjusted,
        together,
      } of pairsFailingTogether(model)) {
        const isTrue = truth.lift(a, b) > 1;
        const isFound = adjusted <= 0.05;
        if (isTrue && together > 0) tally.truePairs[1]! += 1;
        if (isTrue && isFound) tally.truePairs[0]! += 1;
        if (!isTrue && isFound) tally.falsePairs += 1;
      }
    }
    if (repairsOfMeter(bench, 'M2', DRIFT_SINCE) >= 10) enoughSince += 1;
    const drifted = meterOffsets(bench.log).periods.filter(({ meter }) => meter === 'M2')[1];
    if (drifted) {
      offsets.push({
        error: Math.abs(drifted.percent - 1.6),
        holds: drifted.low <= 1.6 && 1.6 <= drifted.high,
        onset: (drifted.since - DRIFT_SINCE) / 86_400_000,
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
  print(`  M2 reads 1.6 % high: drift found on ${offsets.length} of ${enoughSince} benches with ten repairs by it since; error median ${middle(offsets.map(({ error }) => error))} %, within 0.2 % on ${offsets.filter(({ error }) => error <= 0.2).length}, interval holds it on ${offsets.filter(({ holds }) => holds).length}; onset off by ${middle(offsets.map(({ onset }) => Math.abs(onset)))} days`); // prettier-ignore
}

/** When M2 begins to read high. */
const DRIFT_SINCE = Date.UTC(2026, 1, 16);

/** Repairs with a live reading by a meter since a time. */
function repairsOfMeter({ log }: ExaminedBench, meter: string, since: number): number {
  const { checks, meters } = log.names;
  const code = meters.find(meter);
  const rows = [...log.time.keys()].filter(
    (row) => log.meter[row] === code && log.time[row]! >= since && checks.stage(log.check[row]!) === 'live',
  );
  return new Set(rows.map((row) => log.repair[row]!)).size;
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

/** A family of five thousand repairs on its page, in Chromium over a real worker. */
async function timeLargeFamily(print: Print): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    await page.setViewportSize({ width: 1280, height: 800 });
    const times = (await callInPage(page, '/tests/bench/patterns-load.ts', 'measurePatterns', 18_000)) as PatternsTimes;
    print(`HERON-48 of a bench with ${times.readings} readings, in Chromium`);
    print(`  first figures after ${times.first.toFixed(0)} ms, all families examined`);
    for (const { asked, repairs, worker, drawn } of times.filters) {
      print(`  ${asked === '' ? 'no filter' : asked}, ${repairs} repairs: all patterns ${spread(worker)}; filter to the painted frame ${spread(drawn)}`); // prettier-ignore
    }
  } finally {
    await close();
  }
}

function spread(times: readonly number[]): string {
  const sorted = times.toSorted((a, b) => a - b);
  return `${sorted[0]!.toFixed(0)} to ${sorted.at(-1)!.toFixed(0)} ms, median ${sorted[sorted.length >> 1]!.toFixed(0)}`;
}

/** What the meters' comparison takes. */
function timeMeters(print: Print): void {
  const { log } = examineBench({ seed: 7, repairs: 18_000, perDay: 40 });
  const times = Array.from({ length: 5 }, () => {
    const start = performance.now();
    meterOffsets(log);
    return performance.now() - start;
  });
  print(`meters, over all ${log.count} readings of a bench: ${spread(times)}`);
}

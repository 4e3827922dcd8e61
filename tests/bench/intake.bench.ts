import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { IntakeTimes } from './intake-load.ts';
import { peakMemory } from './intake-memory.ts';

const MODULE = '/tests/bench/intake-load.ts';
const HOSTILE = ['"', '""x\n', ',""x', '"\n', '\r', ',', '"a""'];

/** Reading of a long log in a Chromium worker, against papaparse alone over the same decoded text in the same run. */
export async function run(print: (line: string) => void): Promise<void> {
  await printRounds(print, 100_000, 9);
  await printRounds(print, 1_000_000, 5);
  await printReading(print, 5_000_000);
  await printHostile(print, 1_000_000);
}

async function printRounds(print: (line: string) => void, rows: number, rounds: number): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const call = (name: string, argument: unknown): Promise<unknown> => callInWorker(page, MODULE, name, argument);
    const bytes = (await call('writeLog', rows)) as number;
    print(`${rows} rows, ${megabytes(bytes)}`);
    const [cold = NaN, ...warm] = (await call('measurePlan', { rows, times: 11 })) as number[];
    print(`plan of the first 256 kB: ${cold.toFixed(1)} ms in a new worker, then ${median(warm).toFixed(1)} ms (median)`);
    const peak = await peakMemory(page, () => call('measureReading', rows));
    print(`most memory while reading, beyond the idle page: ${peak === undefined ? 'not told here' : megabytes(peak)}`);
    const times = (await call('measureIntake', { rows, rounds })) as IntakeTimes[];
    for (const { parse, read, judge } of times) {
      print(`papaparse alone ${parse.toFixed(0)} ms · file to columns ${read.toFixed(0)} ms · judging ${judge.toFixed(0)} ms`);
    }
    const middle = (pick: (round: IntakeTimes) => number): number => median(times.map(pick));
    const parse = middle((round) => round.parse);
    const read = middle((round) => round.read);
    const judged = middle((round) => round.read + round.judge);
    print(`medians: papaparse alone ${parse.toFixed(0)} ms · file to columns ${read.toFixed(0)} ms, ratio ${(read / parse).toFixed(2)}, ${((rows / read) * 1000).toFixed(0)} rows/s`);
    print(`medians with judging: ${judged.toFixed(0)} ms, ratio ${(judged / parse).toFixed(2)}, ${((rows / judged) * 1000).toFixed(0)} rows/s`);
    // Whatever else the machine does only adds to a time, so the least of each is nearest to its own cost.
    const least = (pick: (round: IntakeTimes) => number): number => Math.min(...times.map(pick));
    const leastParse = least((round) => round.parse);
    const leastRead = least((round) => round.read);
    print(`least: papaparse alone ${leastParse.toFixed(0)} ms · file to columns ${leastRead.toFixed(0)} ms, ratio ${(leastRead / leastParse).toFixed(2)}`);
  } finally {
    await close();
  }
} // prettier-ignore

async function printReading(print: (line: string) => void, rows: number): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const bytes = (await callInWorker(page, MODULE, 'writeLog', rows)) as number;
    let time = NaN;
    const peak = await peakMemory(page, async () => {
      time = (await callInWorker(page, MODULE, 'measureReading', rows)) as number;
    });
    print(`${rows} rows, ${megabytes(bytes)}: ${time.toFixed(0)} ms, ${((rows / time) * 1000).toFixed(0)} rows/s`);
    print(`most memory while reading, beyond the idle page: ${peak === undefined ? 'not told here' : megabytes(peak)}`);
  } finally {
    await close();
  }
}

async function printHostile(print: (line: string) => void, length: number): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const argument = { units: HOSTILE, length };
    const times = (await callInWorker(page, MODULE, 'measureHostile', argument)) as [number, number][];
    print(`hostile texts of ${length} characters, and of twice as many, cut into records`);
    times.forEach(([one, two], at) => {
      print(`${JSON.stringify(HOSTILE[at])} again and again: ${one.toFixed(0)} ms, ${two.toFixed(0)} ms`);
    });
  } finally {
    await close();
  }
}

function median(times: readonly number[]): number {
  return times.toSorted((a, b) => a - b)[Math.floor(times.length / 2)]!;
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`;
}

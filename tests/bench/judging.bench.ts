import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { JudgingFigures, JudgingLoad } from './judging-load.ts';

/** Judging a million readings in a worker of Chromium, and the bytes that they take. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const load: JudgingLoad = { readings: 1_000_000, rounds: 7 };
    const result = await callInWorker(page, '/tests/bench/judging-load.ts', 'measureJudging', load);
    const figures = result as JudgingFigures;
    const milliseconds = (times: readonly number[]): string =>
      `${times.map((time) => time.toFixed(1)).join(' ')} ms (median ${median(times).toFixed(1)})`;
    print(
      `${figures.readings} readings of ${figures.checks} checks, ${figures.bytesPerReading.toFixed(1)} bytes a reading`,
    );
    print(`judging all, accuracy of the meters unknown: ${milliseconds(figures.plain)}`);
    print(`judging all, with the meters' uncertainty: ${milliseconds(figures.guarded)}`);
    print(`sort by reading: ${milliseconds(figures.sortNumber)}`);
    print(`sort by repair: ${milliseconds(figures.sortName)}`);
    print(`filter by verdict: ${milliseconds(figures.filter)}`);
  } finally {
    await close();
  }
}

function median(times: readonly number[]): number {
  return [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]!;
}

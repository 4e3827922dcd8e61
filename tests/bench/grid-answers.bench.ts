import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import { quantile } from '../../src/statistics/descriptive/quantile.ts';
import type { AnswerTimes } from './grid-answers-load.ts';

/** What the grid of readings asks of the worker at a million readings, in a worker of Chromium. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const readings = 1_000_000;
    const result = await callInWorker(page, '/tests/bench/grid-answers-load.ts', 'measureAnswers', readings);
    print(`${readings} readings`);
    for (const [asked, times] of result as AnswerTimes) {
      const sorted = Float64Array.from(times).sort();
      print(`${asked}: ${quantile(sorted, 0.5).toFixed(1)} ms at the median, ${sorted.at(-1)?.toFixed(1)} at most`);
    }
  } finally {
    await close();
  }
}

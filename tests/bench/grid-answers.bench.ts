import { loadavg } from 'node:os';
import { quantile } from '../../src/statistics/descriptive/quantile.ts';
import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { AnswerTimes } from './grid-answers-load.ts';
import type { Compared } from './grid-library-load.ts';

const READINGS = 1_000_000;

/** What the grid of readings asks of the worker at a million readings, in a worker of Chromium, beside a columnar library. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const ask = (file: string, name: string): Promise<unknown> => callInWorker(page, file, name, READINGS);
    print(`${READINGS} readings; load of this machine in the last minute ${loadavg()[0]!.toFixed(1)}`);
    for (const measure of ['measureAnswers', 'measureSaving']) {
      const answers = (await ask('/tests/bench/grid-answers-load.ts', measure)) as AnswerTimes;
      for (const [asked, times] of answers) print(`${asked}: ${spread(times)}`);
    }
    print('the same, beside arquero in the same run; both gave the same answers');
    const compared = (await ask('/tests/bench/grid-library-load.ts', 'compareWithLibrary')) as readonly Compared[];
    for (const { asked, ours, library } of compared) {
      print(`${asked}: ${spread(ours)} · arquero ${spread(library)}`);
    }
  } finally {
    await close();
  }
}

function spread(times: readonly number[]): string {
  const at = (share: number): string => quantile(times, share).toFixed(1);
  return `${at(0.5)} ms at the median, ${at(0)} to ${at(1)}`;
}

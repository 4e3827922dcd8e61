import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { CoverageFigure, LearningSpeed, RiskFigure } from './learning-load.ts';

const TRIALS = 2000;
const JUDGED = 1_000_000;

/** What learned bands hold and what the guard risks, by simulation, and how quick learning is in a worker of Chromium. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  const call = (name: string, load: unknown): Promise<unknown> =>
    callInWorker(page, '/tests/bench/learning-load.ts', name, load);
  try {
    const error = percent(3 * Math.sqrt((0.95 * 0.05) / TRIALS));
    print(
      `learned 95/95 bands that hold 95 % of what they were drawn from (stated: 95 %, Monte Carlo error ±${error}):`,
    );
    for (const figure of (await call('measureCoverage', { trials: TRIALS })) as readonly CoverageFigure[]) {
      const { shape, boards, held, trials, distributionFree } = figure;
      print(
        `  ${boards} ${shape} readings: ${percent(held / trials)}, distribution-free in ${percent(distributionFree / trials)}`,
      );
    }
    print('12.6 V judged through a meter of ±(0.5 % + 3 counts), as the limit (stated: at most 2.5 % with w = U):');
    for (const figure of (await call('measureRisk', { trials: JUDGED })) as readonly RiskFigure[]) {
      const { error, trials, falsePass, plainPass, falseFail, plainFail } = figure;
      print(
        `  ${error} error: ${percent(falsePass / trials)} pass though outside (${percent(plainPass / trials)} without guard), ${percent(falseFail / trials)} fail though inside (${percent(plainFail / trials)})`,
      );
    }
    const speed = (await call('measureSpeed', {
      points: 100_000,
      checks: 30,
      boards: 10_000,
      rounds: 8,
    })) as LearningSpeed;
    print(`trying a band on ${speed.points} readings, the first sorts them: ${milliseconds(speed.tries)}`);
    print(
      `proposals for ${speed.checks} checks of ${speed.boards} boards, told ${speed.reports} times on the way: ${milliseconds(speed.proposals)}`,
    );
  } finally {
    await close();
  }
}

function percent(share: number): string {
  return `${(100 * share).toFixed(2)} %`;
}

function milliseconds(times: readonly number[]): string {
  return `${times.map((time) => time.toFixed(1)).join(' ')} ms`;
}

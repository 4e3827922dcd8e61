import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { EditsFigures, EditsLoad } from './edits-load.ts';

/** Edits by hand of a kept bench of a million readings, in a worker of Chromium. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const load: EditsLoad = { readings: 1_000_000, rows: 10_000 };
    const figures = await callInWorker(page, '/tests/bench/edits-load.ts', 'measureEdits', load);
    print(`${load.readings} readings, each edit until it is kept in the browser's storage and judged`);
    for (const [what, time] of figures as EditsFigures) print(`${what}: ${time.toFixed(1)} ms`);
  } finally {
    await close();
  }
}

import { quantile } from '../../src/statistics/descriptive/quantile.ts';
import { callInPage, openBenchPage } from '../support/browser-bench.ts';
import type { GridTimes } from '../ui/grid/grid-load.ts';

/** The grid of readings in Chromium: first rows, jumps to any row, and frames while scrolling and while moving by keys. */
export async function run(print: (line: string) => void): Promise<void> {
  for (const rows of [100_000, 1_000_000, 5_000_000]) {
    const { page, close } = await openBenchPage();
    try {
      await page.setViewportSize({ width: 1280, height: 900 });
      const times = (await callInPage(page, '/tests/ui/grid/grid-load.ts', 'measureGrid', rows)) as GridTimes;
      print(`${rows} rows, answers stood in for in 4 ms`);
      print(`first rows ${times.first.toFixed(0)} ms · jump to any row ${spread(times.jumps)}`);
      print(`frames while scrolling ${spread(times.frames)} · rows waited ${times.longestWait.toFixed(0)} ms at most`);
      print(`key to next row ${spread(times.keys)}`);
    } finally {
      await close();
    }
  }
}

function spread(times: readonly number[]): string {
  const sorted = Float64Array.from(times).sort();
  const at = (share: number): string => quantile(sorted, share).toFixed(1);
  return `${at(0.5)} ms at the median, ${at(0.95)} at the 95th percentile, ${at(1)} at most`;
}

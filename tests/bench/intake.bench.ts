import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { IntakeTimes } from '../intake/intake-load.ts';

/** Reading of a long log in a Chromium worker, against papaparse alone over the same decoded text in the same run. */
export async function run(print: (line: string) => void): Promise<void> {
  for (const rows of [100_000, 1_000_000]) {
    const bench = await openBenchPage();
    try {
      const times = (await callInWorker(
        bench.page,
        '/tests/intake/intake-load.ts',
        'measureIntake',
        rows,
      )) as IntakeTimes[];
      const megabytes = (times[0]?.bytes ?? 0) / 1e6;
      print(`${rows} rows, ${megabytes.toFixed(1)} MB, ${times.length} rounds`);
      for (const { parse, read, plan } of times) {
        print(
          `papaparse ${parse.toFixed(0)} ms · file to columns ${read.toFixed(0)} ms · ratio ${(read / parse).toFixed(2)} · plan of 256 kB ${plan.toFixed(1)} ms`,
        );
      }
    } finally {
      await bench.close();
    }
  }
}

import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
export async function run(print: (line: string) => void): Promise<void> {
  for (const [rows, rounds] of [[100_000, 15], [1_000_000, 4]] as const) {
    const bench = await openBenchPage();
    const out = (await callInWorker(bench.page, '/tests/bench/zz-stages.ts', 'stages', { rows, rounds })) as Record<string, number[]>;
    for (const [k, v] of Object.entries(out)) { const s = [...v].sort((a, b) => a - b); print(`${rows} ${k}: first ${v[0]!.toFixed(0)} min ${s[0]!.toFixed(0)} median ${s[s.length >> 1]!.toFixed(0)}`); }
    await bench.close();
  }
}

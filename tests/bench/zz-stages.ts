import Papa from 'papaparse';
import { planFile } from '../../src/intake/plan-file.ts';
import { readFile } from '../../src/intake/read-file.ts';
import { FileTable } from '../../src/intake/file-table.ts';
import { RecordReader } from '../../src/intake/record-reader.ts';
import { FileDecoder } from '../../src/intake/text-decoder.ts';
import { takerFor } from '../../src/intake/row-takers.ts';
import { longLog } from '../intake/intake-load.ts';
export async function stages({ rows, rounds }: { rows: number; rounds: number }) {
  const bytes = longLog(rows);
  const file = new File([bytes], 'long.csv');
  const plan = planFile('x', bytes.subarray(0, 262144), false) as any;
  const out: Record<string, number[]> = {};
  const time = async (name: string, f: () => unknown) => { const s = performance.now(); await f(); (out[name] ??= []).push(performance.now() - s); };
  for (let r = 0; r < rounds; r++) {
    const text = new TextDecoder().decode(bytes);
    await time('papa', () => Papa.parse(text, { delimiter: ',', newline: '\n' }).data.length);
    await time('stream', async () => { let n = 0; for await (const b of file.stream() as any) n += b.length; return n; });
    await time('decode', () => { const d = new FileDecoder('utf-8'); for (let at = 0; at < bytes.length; at += 65536) d.decode(bytes.subarray(at, at + 65536)); });
    for (const size of [32768, 65536, 262144, 524288]) {
      const d = new FileDecoder('utf-8');
      const pieces: string[] = []; for (let at = 0; at < bytes.length; at += size) pieces.push(d.decode(bytes.subarray(at, at + size)));
      await time('records ' + size, () => { const rr = new RecordReader(','); let n = 0; for (const p of pieces) n += rr.push(p, false).rows.length; return n; });
      await time('table ' + size, () => { const rr = new RecordReader(','); const t = new FileTable('x', plan, takerFor('x', plan)); for (const p of pieces) t.add(rr.push(p, false)); return t.finish(true); });
    }
    await time('readFile', () => readFile({ name: 'x', size: file.size, bytes: file.stream() as any }, plan));
  }
  return out;
}

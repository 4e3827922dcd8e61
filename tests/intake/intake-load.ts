import Papa from 'papaparse';
import { HEAD_BYTES } from '../../src/intake/caps.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { readFile } from '../../src/intake/read-file.ts';

/** Milliseconds of one round. */
export interface IntakeTimes {
  readonly bytes: number;
  readonly parse: number;
  readonly read: number;
  readonly plan: number;
}

const STAGES = ['as received', 'part out', 'refitted', 'live', 'run-in'];
const POINTS = ['F1', 'Q1 D→S', 'Q2 D→S', 'bulk', 'standby', 'main 12 V', 'backlight', 'D3'];

/** A log in long form with `rows` readings, always the same: at each stage of a repair all its points, a reading every few seconds. */
function longLog(rows: number): Uint8Array<ArrayBuffer> {
  const lines = ['time,repair,family,point,stage,mode,specimen,reading,unit,meter'];
  let time = Date.UTC(2025, 0, 1);
  for (let row = 0; row < rows; row += 1) {
    time += 7000 + ((row * 7919) % 5000);
    const stage = Math.floor(row / POINTS.length) % STAGES.length;
    const live = stage > 2;
    const reading = row % 11 === 0 ? 'OL' : (((row * 7919) % 100_000) / 1000).toFixed(3);
    const repair = `T-${String(1 + Math.floor(row / (POINTS.length * STAGES.length))).padStart(5, '0')}`;
    const measured = `${live ? 'DC volts' : 'resistance'},board,${reading},${live ? 'V' : 'kΩ'}`;
    const when = new Date(time).toISOString().slice(0, 19);
    lines.push(
      `${when},${repair},HERON-48,${POINTS[row % POINTS.length]!},${STAGES[stage]!},${measured},M${1 + (row % 2)}`,
    );
  }
  return new TextEncoder().encode(lines.join('\n') + '\n');
}

/** Reads a log of `rows` readings and parses its text with papaparse alone, in turn, three times. */
export async function measureIntake(rows: number): Promise<IntakeTimes[]> {
  const bytes = longLog(rows);
  const file = new File([bytes], 'long.csv');
  const rounds: IntakeTimes[] = [];
  for (let round = 0; round < 3; round += 1) {
    const text = new TextDecoder().decode(bytes);
    let started = performance.now();
    const parsed = Papa.parse<string[]>(text, { delimiter: ',', newline: '\n' });
    const parse = performance.now() - started;
    if (parsed.data.length < rows) throw new Error('papaparse lost rows.');
    started = performance.now();
    const plan = planFile(file.name, bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES);
    const planned = performance.now() - started;
    if ('refused' in plan) throw new Error(plan.refused);
    started = performance.now();
    const contents = await readFile({ name: file.name, size: file.size, bytes: file.stream() }, plan);
    const read = performance.now() - started;
    if (contents.taken !== rows) throw new Error(`Only ${contents.taken} rows were taken.`);
    rounds.push({ bytes: bytes.length, parse, read, plan: planned });
  }
  return rounds;
}

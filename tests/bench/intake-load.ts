import Papa from 'papaparse';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import type { FilePlan } from '../../src/domain/file-plan.ts';
import { HEAD_BYTES } from '../../src/intake/caps.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { readFile } from '../../src/intake/read-file.ts';
import { RecordReader } from '../../src/intake/record-reader.ts';
import { compileBands } from '../../src/judging/band-table.ts';
import { judgeLog } from '../../src/judging/judge.ts';
import { mainsByRepair } from '../../src/judging/mains.ts';
import { compileMeters } from '../../src/judging/uncertainty.ts';
import { BANDS, METERS } from '../support/bench/scenario.ts';

/** Milliseconds of one round. */
export interface IntakeTimes {
  /** papaparse alone over the decoded text. */
  readonly parse: number;
  /** From the file to its columns. */
  readonly read: number;
  /** From the columns to the verdicts. */
  readonly judge: number;
}

const STAGES = ['as received', 'part out', 'refitted', 'live', 'run-in'];
const POINTS = ['F1', 'Q1 D→S', 'Q2 D→S', 'bulk', 'standby', 'main 12 V', 'backlight', 'D3'];
const HEADER = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter\n';

/** A row of a log in long form, always the same: at each stage of a repair all its points, a reading every few seconds. */
function rowText(row: number): string {
  const stage = Math.floor(row / POINTS.length) % STAGES.length;
  const isLive = stage > 2;
  const reading = row % 11 === 0 ? 'OL' : (((row * 7919) % 100_000) / 1000).toFixed(3);
  const repair = `T-${String(1 + Math.floor(row / (POINTS.length * STAGES.length))).padStart(5, '0')}`;
  const measured = `${isLive ? 'DC volts' : 'resistance'},board,${reading},${isLive ? 'V' : 'kΩ'}`;
  const time = Date.UTC(2025, 0, 1) + row * 9500 + ((row * 7919) % 5000);
  const when = new Date(time).toISOString().slice(0, 19);
  return `${when},${repair},HERON-48,${POINTS[row % POINTS.length]!},${STAGES[stage]!},${measured},M${1 + (row % 2)}\n`;
}

const fileName = (rows: number): string => `long-${rows}.csv`;

/** Writes a log of `rows` readings as a file of the page's own folder, so that a worker reads it from disk. @returns its bytes */
export async function writeLog(rows: number): Promise<number> {
  const folder = await navigator.storage.getDirectory();
  const handle = await folder.getFileHandle(fileName(rows), { create: true });
  const file = await handle.createWritable();
  await file.write(HEADER);
  for (let row = 0; row < rows; row += 10_000) {
    await file.write(Array.from({ length: Math.min(10_000, rows - row) }, (_, at) => rowText(row + at)).join(''));
  }
  await file.close();
  return (await handle.getFile()).size;
}

async function openLog(rows: number): Promise<File> {
  const folder = await navigator.storage.getDirectory();
  return (await folder.getFileHandle(fileName(rows))).getFile();
}

/** Guesses the plan of a log's head `times` times. @returns milliseconds of each, the first with nothing compiled yet */
export async function measurePlan({ rows, times }: { rows: number; times: number }): Promise<number[]> {
  const head = new Uint8Array(await (await openLog(rows)).slice(0, HEAD_BYTES).arrayBuffer());
  return Array.from({ length: times }, () => {
    const started = performance.now();
    planOf(head);
    return performance.now() - started;
  });
}

/** Reads a log and parses its text with papaparse alone, in turn. The text is decoded before either starts. */
export async function measureIntake({ rows, rounds }: { rows: number; rounds: number }): Promise<IntakeTimes[]> {
  const file = await openLog(rows);
  const times: IntakeTimes[] = [];
  for (let round = 0; round < rounds; round += 1) {
    const parse = parseAlone(await file.text(), rows);
    const started = performance.now();
    const log = await readLog(file, rows);
    const read = performance.now() - started;
    times.push({ parse, read, judge: judge(log) });
  }
  return times;
}

/** Reads a log once. @returns milliseconds */
export async function measureReading(rows: number): Promise<number> {
  const file = await openLog(rows);
  const started = performance.now();
  await readLog(file, rows);
  return performance.now() - started;
}

/** Cuts hostile texts of one and two lengths into records. @returns milliseconds for each unit and length */
export function measureHostile({ units, length }: { units: readonly string[]; length: number }): [number, number][] {
  const time = (unit: string, characters: number): number => {
    const text = unit.repeat(Math.ceil(characters / unit.length));
    const started = performance.now();
    new RecordReader(',').push(text, true);
    return performance.now() - started;
  };
  return units.map((unit) => [time(unit, length), time(unit, 2 * length)]);
}

function parseAlone(text: string, rows: number): number {
  const started = performance.now();
  const { data } = Papa.parse<string[]>(text, { delimiter: ',', newline: '\n' });
  const parse = performance.now() - started;
  if (data.length < rows) throw new Error('papaparse lost rows.');
  return parse;
}

async function readLog(file: File, rows: number): Promise<ReadingLog> {
  const plan = planOf(new Uint8Array(await file.slice(0, HEAD_BYTES).arrayBuffer()));
  const contents = await readFile({ name: file.name, size: file.size, bytes: file.stream() }, plan);
  if (contents.shape !== 'readings' || contents.taken !== rows) {
    throw new Error(`Only ${contents.taken} rows were taken.`);
  }
  return contents.log;
}

function planOf(head: Uint8Array): FilePlan {
  const plan = planFile('long.csv', head, false);
  if ('refused' in plan) throw new Error(plan.refused);
  return plan;
}

function judge(log: ReadingLog): number {
  const started = performance.now();
  const table = compileBands(log.names, BANDS);
  judgeLog(log, { table, accuracies: compileMeters(log.names, METERS), mains: mainsByRepair(log) });
  return performance.now() - started;
}

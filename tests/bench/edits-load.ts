import { deleteDB } from 'idb';
import { openKeeper } from '../../src/store/keeper.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { keptMemory } from '../../src/worker/bench/memory.ts';
import type { CellText } from '../../src/worker/contract/reading-edits.ts';
import { ask } from '../support/asking.ts';
import { ALL } from '../support/edit-model.ts';

export interface EditsLoad {
  readonly readings: number;
  readonly rows: number;
}

/** What was done, and how long it took until it was kept and judged, in milliseconds. */
export type EditsFigures = readonly (readonly [string, number])[];

/** Edits a kept bench in every way, one edit after the other. */
export async function measureEdits({ readings, rows }: EditsLoad): Promise<EditsFigures> {
  const name = `benchtally-edits-${crypto.randomUUID()}`;
  const keeper = await openKeeper({ name });
  const bench = createBench(keptMemory(() => Promise.resolve(keeper)));
  const figures: [string, number][] = [];
  const time = async (what: string, work: () => Promise<unknown>): Promise<void> => {
    const start = performance.now();
    await work();
    figures.push([what, performance.now() - start]);
  };
  const edit = (first: number, last: number, field: CellText['field'], text: string) => (): Promise<unknown> =>
    ask(bench, 'editReadings', ALL, [{ first, last, field, text }], '.');
  try {
    await ask(bench, 'openKept');
    await ask(bench, 'startOwn');
    await ask(bench, 'bringIn', [logFile(readings)]);
    await ask(bench, 'count', ALL);
    await time('one reading edited', edit(9, 9, 'reading', '7.5 V'));
    await time('taken back', () => ask(bench, 'undoEdit'));
    await time('one name edited', edit(9, 9, 'meter', 'M9'));
    await time(`${rows} readings filled`, edit(0, rows - 1, 'reading', '7.6 V'));
    await time('taken back', () => ask(bench, 'undoEdit'));
    await time('done again', () => ask(bench, 'redoEdit'));
    const cells = Array.from({ length: rows }, (_, line): CellText => ({ first: line, last: line, field: 'reading', text: `${line % 90}.25 V` })); // prettier-ignore
    await time(`${rows} rows pasted over: the preview`, () => ask(bench, 'tryEdit', ALL, cells, '.'));
    await time('and done', () => ask(bench, 'editReadings', ALL, cells, '.'));
    const header = ['repair', 'point', 'stage', 'reading', 'meter'];
    const block = { rows: [header, ...Array.from({ length: rows }, (_, row) => ['T-99999', 'F1', 'live', `${row % 90}.5 V`, 'M1'])], columns: [] }; // prettier-ignore
    await time(`${rows} rows as new: the preview`, () => ask(bench, 'tryAdd', block, '.'));
    await time('and done', () => ask(bench, 'addReadings', block, '.'));
    await time('taken back', () => ask(bench, 'undoEdit'));
    await time('done again', () => ask(bench, 'redoEdit'));
    await time(`${rows} readings deleted`, () => ask(bench, 'deleteReadings', ALL, 0, rows - 1));
    await time('taken back', () => ask(bench, 'undoEdit'));
    return figures;
  } finally {
    await keeper.close();
    await deleteDB(name);
  }
}

function logFile(readings: number): File {
  const lines = ['time,repair,family,point,stage,mode,reading,meter'];
  for (let row = 0; row < readings; row += 1) {
    const time = new Date(Date.UTC(2020, 0, 1) + row * 60_000).toISOString().slice(0, 19);
    lines.push(
      `${time},T-${Math.floor(row / 25)},HERON-48,point ${row % 25},live,DC volts,${row % 400}.5 V,M${row % 3}`,
    );
  }
  return new File([`${lines.join('\n')}\n`], 'edits.csv');
}

import fc from './fast-check.ts';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import type { EditField } from '../../src/domain/reading-edit.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { readCell } from '../../src/worker/bench/reading-edits-cells.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import type { NewRows } from '../../src/worker/contract/reading-edits.ts';
import type { ReadingRow } from '../../src/worker/contract/readings.ts';
import { ask } from './asking.ts';
import { reading } from './readings.ts';

export const ALL: ReadingsQuery = { filters: [], sort: [] };

/** What a row holds apart from what follows from it; the import of added rows is named after the moment, and so left out. */
export function plain(row: Reading): Reading {
  const { time, repair, family, point, stage, mode, specimen, state, value, prefix, decimals, meter, origin } = row;
  const file = origin.file.startsWith('added by hand') ? 'added by hand' : origin.file;
  return { time, repair, family, point, stage, mode, specimen, state, value, prefix, decimals, meter, origin: { file, line: origin.line } }; // prettier-ignore
}

export const rowsOf = (bench: BenchHandlers): Promise<readonly ReadingRow[]> => ask(bench, 'window', ALL, 0, 1000);

/** A block of which the second row cannot be read, and what the others come to. */
const BLOCK: NewRows = {
  rows: [
    ['time', 'repair', 'family', 'point', 'stage', 'mode', 'reading', 'meter'],
    ['2026-04-03 10:00', 'T-0601', 'HERON-48', 'bulk', 'live', 'DC volts', '388,5 V', 'M2'],
    ['2026-04-03 10:01', 'T-0601', 'HERON-48', 'bulk', 'soon', 'DC volts', '388,5 V', 'M2'],
    ['2026-04-03 10:02', 'T-0601', 'HERON-48', 'Q1 D→S, new part', 'part out', 'resistance', 'OL', 'M2'],
  ],
  columns: [],
};
const added: readonly Reading[] = [
  reading({ time: Date.UTC(2026, 3, 3, 10), repair: 'T-0601', family: 'HERON-48', point: 'bulk', stage: 'live', mode: 'DC volts', state: 'value', value: 388.5, prefix: 0, decimals: 1, meter: 'M2', origin: { file: 'added by hand', line: 3 } }),
  reading({ time: Date.UTC(2026, 3, 3, 10, 2), repair: 'T-0601', family: 'HERON-48', point: 'Q1 D→S', stage: 'part out', mode: 'resistance', specimen: 'new part', state: 'over-range', value: NaN, prefix: 0, decimals: 0, meter: 'M2', origin: { file: 'added by hand', line: 5 } }),
]; // prettier-ignore

/** What a person may do to readings, by the lines that are there. */
export const deeds = fc.array(
  fc.oneof(
    fc.record({ does: fc.constant('edit' as const), line: fc.nat(8), cell: fc.constantFrom<[EditField, string]>(['reading', '5.1'], ['reading', 'OL'], ['reading', '231'], ['time', '2026-04-02'], ['repair', 'T-0777'], ['point', 'bulk'], ['stage', 'run-in'], ['specimen', 'new part'], ['meter', 'M9']) }),
    fc.record({ does: fc.constantFrom('delete' as const, 'restore' as const, 'copy' as const), line: fc.nat(8) }),
    fc.record({ does: fc.constantFrom('undo' as const, 'redo' as const, 'return' as const, 'add' as const, 'reload' as const) }),
  ),
  { maxLength: 14 },
); // prettier-ignore
type Deed = typeof deeds extends fc.Arbitrary<(infer One)[]> ? One : never;

/** All readings there ever were, `now` undefined where one is deleted, beside their originals. */
type Model = readonly { readonly now: Reading | undefined; readonly first: Reading }[];

/** The same deeds on a plain list of readings, with all that was before kept whole. */
export class EditModel {
  #past: Model[] = [];
  #future: Model[] = [];
  #now: Model;

  constructor(readings: readonly Reading[]) {
    this.#now = readings.map((first) => ({ now: first, first }));
  }

  get readings(): readonly Reading[] {
    return this.#now.flatMap(({ now }) => now ?? []);
  }

  /** Does the same to the bench and to the model. @param reload - gives the bench as it is opened again */
  async both(bench: BenchHandlers, deed: Deed, reload: (bench: BenchHandlers) => Promise<BenchHandlers>) {
    if (deed.does === 'reload') return reload(bench);
    if ('line' in deed) await this.#atLine(bench, deed);
    else if (deed.does === 'add') {
      await ask(bench, 'addReadings', BLOCK, '.');
      this.#step([...this.#now, ...added.map((first) => ({ now: first, first }))]);
    } else {
      await ask(bench, ({ undo: 'undoEdit', redo: 'redoEdit', return: 'returnReadings' } as const)[deed.does]);
      this[deed.does]();
    }
    return bench;
  }

  undo(): void {
    const before = this.#past.pop();
    if (before) [this.#future, this.#now] = [[...this.#future, this.#now], before];
  }

  redo(): void {
    const after = this.#future.pop();
    if (after) [this.#past, this.#now] = [[...this.#past, this.#now], after];
  }

  return(): void {
    this.#step(this.#now.map(({ now, first }, index) => ({ now: now ?? this.#last(index), first })));
  }

  async #atLine(bench: BenchHandlers, deed: Extract<Deed, { readonly line: number }>): Promise<void> {
    const { line } = deed;
    const place = [...this.#now.keys()].filter((index) => this.#now[index]?.now !== undefined)[line];
    const { now: old, first } = (place === undefined ? undefined : this.#now[place]) ?? {};
    if (deed.does === 'edit') {
      const [field, text] = deed.cell;
      await ask(bench, 'editReadings', ALL, [{ first: line, last: line, field, text }], '.');
      const set = old && readCell(field, text, old, '.');
      if (old && typeof set === 'object') this.#set(place, { ...old, ...set });
    } else if (deed.does === 'copy') {
      await ask(bench, 'copyReadings', ALL, line, line);
      const copy = old && { ...old, origin: { file: 'added by hand', line: 3 } };
      if (copy) this.#step([...this.#now, { now: copy, first: copy }]);
    } else {
      await ask(bench, deed.does === 'delete' ? 'deleteReadings' : 'restoreReadings', ALL, line, line);
      if (old) this.#set(place, deed.does === 'delete' ? undefined : first);
    }
  }

  #set(place: number | undefined, now: Reading | undefined): void {
    this.#step(this.#now.map((one, index) => (index === place ? { ...one, now } : one)));
  }

  /** A deleted reading as it was before it went. */
  #last(index: number): Reading | undefined {
    return this.#past.map((model) => model[index]?.now).findLast((one) => one !== undefined);
  }

  #step(next: Model): void {
    if (JSON.stringify(next) === JSON.stringify(this.#now)) return;
    this.#past = [...this.#past, this.#now];
    this.#future = [];
    this.#now = next;
  }
}

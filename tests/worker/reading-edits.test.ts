import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { readingAt } from '../../src/columns/reading-log.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { EMPTY_BENCH, judgeBench } from '../../src/worker/bench/bench-data.ts';
import { readCell } from '../../src/worker/bench/reading-edits-cells.ts';
import type { EditField } from '../../src/domain/reading-edit.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import { BANDS } from '../support/bench/scenario.ts';
import { ask } from '../support/asking.ts';
import { ALL, deeds, EditModel, plain, rowsOf } from '../support/edit-model.ts';
import { logOf, reading } from '../support/readings.ts';

const HEADER = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const ROWS = [
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:01:00,T-0501,HERON-48,bulk,live,DC volts,board,390.1,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,Q1 D→S,part out,resistance,board,0.640,MΩ,M1',
  '2026-04-01T09:03:00,T-0501,PLOVER-32,mains,live,AC volts,board,230,V,M1',
  '2026-04-01T09:04:00,T-0501,PLOVER-32,bulk,live,DC volts,board,321,V,M1',
];

async function smallBench(): Promise<BenchHandlers> {
  const bench = createBench();
  await ask(bench, 'bringIn', [new File([[HEADER, ...ROWS, ''].join('\n')], 'april.csv')]);
  await ask(bench, 'setBands', BANDS);
  return bench;
}

const edit = (bench: BenchHandlers, line: number, field: EditField, text: string) =>
  ask(bench, 'editReadings', ALL, [{ first: line, last: line, field, text }], '.');

describe('readCell(field, text, reading, mark)', () => {
  const megohms = reading({ mode: 'resistance', value: 640e3, prefix: 6, decimals: 3 });
  const volts = reading({ mode: 'DC volts', value: 12.58, prefix: 0, decimals: 2 });

  test.each<[EditField, string, Reading, Partial<Reading>]>([
    ['reading', '12,7 V', volts, { state: 'value', value: 12.7, prefix: 0, decimals: 1 }],
    ['reading', '0.64 MΩ', megohms, { state: 'value', value: 640e3, prefix: 6, decimals: 2 }],
    ['reading', '0.65', megohms, { state: 'value', value: 650e3, prefix: 6, decimals: 2 }],
    ['reading', '650k', megohms, { state: 'value', value: 650e3, prefix: 3, decimals: 0 }],
    ['reading', 'OL', megohms, { state: 'over-range', value: NaN, prefix: 6, decimals: 0 }],
    ['reading', '\u22120.5', volts, { state: 'value', value: -0.5, prefix: 0, decimals: 1 }],
    ['reading', '', volts, { state: 'blank', value: NaN, prefix: 0, decimals: 0 }],
    ['time', '2026-05-01 08:15', volts, { time: Date.UTC(2026, 4, 1, 8, 15) }],
    ['time', '2026-05-01', volts, { time: Date.UTC(2026, 4, 1, 9, 14) }],
    ['time', '10:30', volts, { time: Date.UTC(2026, 2, 14, 10, 30) }],
    ['stage', 'Run-In', volts, { stage: 'run-in' }],
    ['specimen', 'new part', volts, { specimen: 'new part' }],
    ['mode', 'diode', volts, { mode: 'diode' }],
    ['point', '  Q1 D→S ', volts, { point: 'Q1 D→S' }],
    ['meter', '', volts, { meter: '' }],
  ])('reads %s “%s” in the field’s own terms', (field, text, before, expected) => {
    const { prefix, ...others } = expected;
    const read = readCell(field, text, before, '.');
    expect(read).toMatchObject(others);
    if (field === 'reading' && expected.state === 'value') expect(read).toMatchObject({ prefix });
  });

  test.each<[EditField, string, Reading, RegExp]>([
    ['reading', '12.7 Ω', volts, /is in Ω, in which DC volts is not measured\. Correct the unit or the mode\.$/],
    ['reading', '39O.1', volts, /letter “O”/],
    ['reading', '5,555', volts, /may be read in two ways/],
    ['reading', 'twelve', volts, /^“twelve” is no number/],
    ['time', '31/02/2026', volts, /order/],
    ['time', '2026-02-30', volts, /no calendar has/],
    ['stage', 'soon', volts, /Write as received, part out, refitted, live or run-in\.$/],
    ['mode', 'resistance', volts, /is measured in Ω, and the reading is in V/],
    ['repair', ' ', volts, /Every reading has a repair/],
  ])('refuses %s “%s” with what is wrong and what to do', (field, text, before, sentence) => {
    expect(readCell(field, text, before, '.')).toMatch(sentence);
  });
});

describe('editReadings(query, cells, mark)', () => {
  test('changes a reading, judges it anew, and keeps its original beside it', async () => {
    const bench = await smallBench();
    const [before] = await rowsOf(bench);
    expect(await edit(bench, 0, 'reading', '7.02 V')).toMatchObject({ changed: 1, faults: [] });
    const [after] = await rowsOf(bench);
    expect(after).toMatchObject({ value: 7.02, original: { value: 5.02 } });
    expect(after?.verdict).not.toBe(before?.verdict);
    expect(await ask(bench, 'editsSoFar')).toMatchObject({ changed: 1, deleted: 0, steps: 1, undone: 0 });
  });

  test('changes nothing where one of the cells cannot be read, and says which', async () => {
    const bench = await smallBench();
    const before = await rowsOf(bench);
    const cells = [
      { first: 0, last: 0, field: 'reading', text: '5.1' },
      { first: 1, last: 2, field: 'stage', text: 'soon' },
    ] as const;
    const { changed, faults } = await ask(bench, 'editReadings', ALL, cells, '.');
    expect([changed, faults.map(({ line, field }) => [line, field])]).toEqual([0, [[1, 'stage'], [2, 'stage']]]); // prettier-ignore
    expect(await rowsOf(bench)).toEqual(before);
  });

  test('tryEdit tells the same and changes nothing', async () => {
    const bench = await smallBench();
    const before = await rowsOf(bench);
    const cells = [{ first: 0, last: 4, field: 'meter', text: 'M7' }] as const;
    const tried = await ask(bench, 'tryEdit', ALL, cells, '.');
    expect(await rowsOf(bench)).toEqual(before);
    expect(await ask(bench, 'editReadings', ALL, cells, '.')).toEqual(tried);
    expect((await rowsOf(bench)).map(({ meter }) => meter)).toEqual(['M7', 'M7', 'M7', 'M7', 'M7']);
  });

  test('a changed mains voltage moves the band of the bulk capacitor that follows it', async () => {
    const bench = await smallBench();
    const limits = async () => (await rowsOf(bench)).at(4)?.limits;
    const before = await limits();
    expect(before).toBeDefined();
    await edit(bench, 3, 'reading', '120 V');
    expect((await limits())?.high).toBeLessThan(before!.high);
  });

  test('a file that comes again is known still, though a reading of it was edited and another deleted', async () => {
    const bench = await smallBench();
    await edit(bench, 0, 'reading', '7.02 V');
    await ask(bench, 'deleteReadings', ALL, 1, 1);
    const grown = [HEADER, ...ROWS, ROWS[0]!.replace('09:00', '11:00'), ''].join('\n');
    const { records } = await ask(bench, 'bringIn', [new File([grown], 'april.csv')]);
    expect(records[0]).toMatchObject({ rows: 6, known: 5, taken: 1 });
    expect((await rowsOf(bench)).map(({ value }) => value)).toEqual([7.02, 640e3, 230, 321, 5.02]);
  });

  test('more readings than can be edited at once are refused with a sentence', async () => {
    const bench = await smallBench();
    const all = ask(bench, 'editReadings', ALL, [{ first: 0, last: 200_000, field: 'meter', text: 'M1' }], '.');
    await expect(all).rejects.toThrow('No more than 100,000 readings');
  });
});

describe('edits one after the other', () => {
  test('leave the readings that a model holds, judged as if they had been brought in so, and undo and redo lead back and forth', async () => {
    await fc.assert(
      fc.asyncProperty(deeds, async (todo) => {
        const bench = await smallBench();
        const first = (await rowsOf(bench)).map(plain);
        const model = new EditModel(first);
        for (const deed of todo) await model.both(bench, deed, (same) => Promise.resolve(same));
        const rows = await rowsOf(bench);
        expect(rows.map(plain)).toEqual(model.readings);
        const fresh = judgeBench({ ...EMPTY_BENCH, log: logOf(...model.readings), bands: BANDS });
        expect(rows.map(({ verdict }) => verdict)).toEqual([...fresh.verdicts]);
        expect(readingsOf(fresh.data.log)).toEqual(model.readings);
        const { imports } = await ask(bench, 'shift');
        expect(imports.every(({ rows: all, taken, setAside, known }) => all === taken + setAside + known)).toBe(true);
        while ((await ask(bench, 'editsSoFar')).steps > 0) await ask(bench, 'undoEdit');
        expect((await rowsOf(bench)).map(plain)).toEqual(first);
      }),
      { numRuns: 150 },
    );
  });
});

function readingsOf(log: ReadingLog): readonly Reading[] {
  return Array.from({ length: log.count }, (_, row) => readingAt(log, row));
}

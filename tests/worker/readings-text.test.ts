import fc from '../support/fast-check.ts';
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { MODES, SPECIMENS, STAGES, STATES, type Reading } from '../../src/domain/reading.ts';
import { shownRangeFault } from '../../src/domain/shown-range.ts';
import { cleanName } from '../../src/intake/names.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { readingsText } from '../../src/worker/bench/readings-text.ts';
import type { CallContext } from '../../src/worker/contract/calls.ts';
import type { WorkProgress } from '../../src/worker/contract/progress.ts';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf, reading } from '../support/readings.ts';

const ALL: ReadingsQuery = { filters: [], sort: [] };
const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

async function textOf(all: readonly Reading[], isForSpreadsheet = false): Promise<string> {
  const log = logOf(...all);
  return (await readingsText(log, Uint32Array.from(all.keys()), isForSpreadsheet, context)).text();
}

/** A bench that was empty before the text was brought in, with no question answered. */
async function benchWith(text: string) {
  const bench = createBench();
  const file = new File([text], 'readings.csv');
  const plan = await bench.planFile(context, file);
  expect('refused' in plan ? plan.refused : plan.questions).toEqual([]);
  await bench.bringIn(context, [file]);
  return { bench, setAside: (await bench.shift(context)).setAside };
}

async function writtenAgain(text: string): Promise<string> {
  const { bench, setAside } = await benchWith(text);
  expect(setAside).toEqual([]);
  return (await bench.readingsText(context, ALL)).text();
}

/** What a file of readings says of each; where they stood in an earlier file it does not. */
function told({ time, repair, family, point, stage, mode, specimen, state, value, prefix, decimals, meter }: Reading) {
  return { time, repair, family, point, stage, mode, specimen, state, value, prefix, decimals, meter };
}

async function readingsIn(text: string): Promise<readonly ReturnType<typeof told>[]> {
  const { bench, setAside } = await benchWith(text);
  expect(setAside).toEqual([]);
  return (await bench.window(context, ALL, 0, 1000)).map(told);
}

/** Names with quotes, separators, line ends, apostrophes, marks of comments and the first characters of formulas. */
const name = fc
  .oneof(
    fc.string({ minLength: 1, maxLength: 8, unit: fc.constantFrom(...Array.from('ab1 ,;|#"\'\t\r\n=+-@\u00a0Ωµ＝')) }),
    fc.constantFrom('__proto__', 'constructor', '=cmd', "'=cmd", "''=1", '-5', "'-5", '-1-1', '+1-1', "'x", 'a,=1', 'a;=1', 'a\n=1', 'a|b;c'),
  )
  .map(cleanName)
  .filter((text) => !/^[-–—]*$/.test(text)); // prettier-ignore

/** Readings as a file gives them: their numbers have the digits that are shown. */
const hostile = fc.array(
  fc
    .record({
      time: fc.oneof(fc.constant(NaN), fc.integer({ min: 0, max: 4e12 })),
      repair: name,
      family: name,
      point: name,
      stage: fc.constantFrom(...STAGES),
      mode: fc.constantFrom(...MODES),
      specimen: fc.constantFrom(...SPECIMENS),
      state: fc.constantFrom('value' as const, ...STATES),
      digits: fc.integer({ min: -1e9, max: 1e9 }),
      decimals: fc.nat(6),
      prefix: fc.constantFrom(-12, -9, -6, -3, 0, 3, 6),
      meter: name,
    })
    .map(({ digits, ...given }) => {
      const hasNumber = given.state === 'value';
      const number = Number(`${digits}e${given.prefix - given.decimals}`);
      const value = hasNumber ? (shownRangeFault(number) === undefined ? number : 0) : NaN;
      const prefix = hasNumber || given.state === 'over-range' ? given.prefix : 0;
      return reading({ ...given, value, prefix, decimals: hasNumber ? given.decimals : 0 });
    }),
  { minLength: 1, maxLength: 6 },
);

describe('readings that are saved and brought in again', () => {
  test('are written the same to the byte', async () => {
    await fc.assert(
      fc.asyncProperty(readings, async (all) => {
        const first = await textOf(all);
        expect(await writtenAgain(first)).toBe(first);
      }),
      { numRuns: 1000 },
    );
  });

  test('are the same readings, whatever their names hold, in both forms', async () => {
    await fc.assert(
      fc.asyncProperty(hostile, async (all) => {
        const expected = all.map(told);
        expect(await readingsIn(await textOf(all))).toEqual(expected);
        expect(await readingsIn(await textOf(all, true))).toEqual(expected);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('readingsText(log, rows, isForSpreadsheet, context)', () => {
  test('writes digits, prefixes and answers as the meter showed them', async () => {
    const resistance = { mode: 'resistance', stage: 'part out', time: NaN } as const;
    const text = await textOf([
      reading({ value: -0.64, prefix: -3, decimals: 3 }),
      reading({ value: 120, decimals: 0, time: Date.UTC(2026, 2, 14, 9, 14, 5, 250), specimen: 'new part' }),
      reading({ ...resistance, state: 'over-range', value: NaN, prefix: 6, decimals: 0 }),
      reading({ ...resistance, state: 'over-range', value: 4e7, prefix: 6, decimals: 1 }),
      reading({ ...resistance, state: 'below-range', value: NaN }),
      reading({ ...resistance, mode: 'continuity', state: 'beep', value: NaN }),
      reading({ ...resistance, state: 'blank', value: NaN }),
    ]);
    expect(text.split('\r\n')).toEqual([
      'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
      '2026-03-14 09:14:00,T-0131,HERON-48,12V main,live,DC volts,board,-640.000,mV,M1',
      '2026-03-14 09:14:05.250,T-0131,HERON-48,12V main,live,DC volts,new part,120,V,M1',
      ',T-0131,HERON-48,12V main,part out,resistance,board,OL,MΩ,M1',
      ',T-0131,HERON-48,12V main,part out,resistance,board,>40.0,MΩ,M1',
      ',T-0131,HERON-48,12V main,part out,resistance,board,below range,Ω,M1',
      ',T-0131,HERON-48,12V main,part out,continuity,board,beep,Ω,M1',
      ',T-0131,HERON-48,12V main,part out,resistance,board,blank,Ω,M1',
      '',
    ]);
    expect(await writtenAgain(text)).toBe(text);
  });

  test('states the comma in a first line where a name holds another separator, and only there', async () => {
    const second = reading({ point: 'a;b' });
    const log = logOf(reading({}), second);
    const write = async (rows: readonly number[]): Promise<string> =>
      (await readingsText(log, Uint32Array.from(rows), false, context)).text();
    expect(await write([0, 1])).toMatch(/^sep=,\r\ntime,/);
    expect(await write([0])).toMatch(/^time,/);
  });

  /** Source of the first characters: OWASP, CSV Injection; ASVS 1.2.10 adds NUL. The full-width forms are from memory. */
  test('for a spreadsheet begins no cell like a formula, unless it is a number', async () => {
    let guarded = 0;
    await fc.assert(
      fc.asyncProperty(hostile, async (all) => {
        const { data } = Papa.parse<string[]>(await textOf(all, true), { delimiter: ',', newline: '\r\n' });
        for (const cell of data.flat()) {
          if (/^\s*[=+\-@\t\r\n\0＝＋－＠]/.test(cell)) expect(cell).toMatch(/^[+-]?\d+(?:[.,]\d+)?$/);
          if (cell.startsWith("'")) guarded += 1;
        }
      }),
      { numRuns: 1000 },
    );
    expect(guarded).toBeGreaterThan(100);
  });

  test('a file that notes no guard keeps its apostrophes', async () => {
    const [kept] = await readingsIn(await textOf([reading({ point: "'=1" })]));
    expect(kept?.point).toBe("'=1");
  });

  test('writes the rows that a query asks for, in its order, as they were edited', async () => {
    const { bench } = await benchWith(await textOf([1, 3, 2].map((value) => reading({ value, point: `P${value}` }))));
    await bench.editReadings(context, ALL, [{ first: 1, last: 1, field: 'repair', text: 'T-0002' }], '.');
    const query: ReadingsQuery = {
      filters: [{ field: 'reading', from: 2 }],
      sort: [{ field: 'reading', descending: true }],
    };
    const lines = (await (await bench.readingsText(context, query)).text()).split('\r\n').slice(1, -1);
    expect(lines.map((line) => line.split(',').slice(1, 4).join())).toEqual([
      'T-0002,HERON-48,P3',
      'T-0131,HERON-48,P2',
    ]);
  });

  test('many rows are written in pieces, between which it can be stopped', async () => {
    const log = logOf(...Array.from({ length: 5000 }, (_, line) => reading({ value: line })));
    const rows = Uint32Array.from({ length: 100_000 }, (_, at) => at % 5000);
    const whole = await (await readingsText(log, rows, false, context)).text();
    expect(whole.split('\r\n')).toHaveLength(rows.length + 2);

    const stop = new AbortController();
    const told: WorkProgress[] = [];
    const writing = readingsText(log, rows, false, { signal: stop.signal, report: (step) => told.push(step) });
    stop.abort(new Error('enough'));
    await expect(writing).rejects.toThrow('enough');
  });
});

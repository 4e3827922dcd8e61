import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { FilePlan, Given, GivenRange } from '../../src/domain/file-plan.ts';
import { GivenLines } from '../../src/intake/given-lines.ts';
import { previewFile } from '../../src/intake/preview.ts';
import { expectReason, planOf, read, readingsOf, utf8 } from './support.ts';

const stream = utf8(
  'time,value,unit\n23:59:58,4.98,V\n23:59:59,4.97,V\n00:00:01,12.1,V\n\n00:00:02,12.2,V\n00:00:03,0.2,Ω\n',
);
const given: Given = { repair: 'T-1', point: 'standby', stage: 'live', start: Date.UTC(2026, 2, 1) };

function planWith(givenRanges: readonly GivenRange[], whole: Given = given): FilePlan {
  return { ...planOf(stream), given: whole, givenRanges };
}

describe('what is stated for ranges of lines', () => {
  test('stands in place of what is stated for the file, first and last line included', async () => {
    const plan = planWith([
      { from: 4, to: 6, given: { point: 'main 12 V' } },
      { from: 6, to: 7, given: { repair: 'T-2', stage: 'as received' } },
    ]);
    expect(readingsOf(await read(stream, plan)).map(({ origin, repair, point, stage, mode }) => [origin.line, repair, point, stage, mode])).toEqual([
      [2, 'T-1', 'standby', 'live', 'DC volts'],
      [3, 'T-1', 'standby', 'live', 'DC volts'],
      [4, 'T-1', 'main 12 V', 'live', 'DC volts'],
      [6, 'T-2', 'main 12 V', 'as received', 'diode'],
      [7, 'T-2', 'standby', 'as received', 'resistance'],
    ]); // prettier-ignore
  });

  test('a midnight stays passed where only the point changes, and a start of its own counts from there', async () => {
    const days = async (ranges: readonly GivenRange[]): Promise<number[]> =>
      readingsOf(await read(stream, planWith(ranges))).map(({ time }) => new Date(time).getUTCDate());
    expect(await days([{ from: 4, to: 6, given: { point: 'main 12 V' } }])).toEqual([1, 1, 2, 2, 2]);
    expect(await days([{ from: 6, to: 7, given: { start: Date.UTC(2026, 2, 9) } }])).toEqual([1, 1, 2, 9, 9]);
  });

  test('lines that no range covers are set aside where the file states nothing', async () => {
    const { start } = given;
    const plan = planWith([{ from: 2, to: 3, given: { ...given } }], start === undefined ? {} : { start });
    const contents = await read(stream, plan);
    expect(contents.setAside.map(({ line }) => line)).toEqual([4, 6, 7]);
    contents.setAside.forEach(expectReason);
    expect(contents.taken).toBe(2);
  });

  test('a cell that says it for itself is not overruled', async () => {
    const bytes = utf8('repair,point,stage,reading,unit\nT-1,bulk,live,1,V\n,bulk,live,2,V\n');
    const plan: FilePlan = { ...planOf(bytes), givenRanges: [{ from: 1, to: 9, given: { repair: 'T-9' } }] };
    expect(readingsOf(await read(bytes, plan)).map(({ repair }) => repair)).toEqual(['T-1', 'T-9']);
  });

  test('it shows in the preview', () => {
    const plan = planWith([{ from: 6, to: 6, given: { stage: 'live' } }], {});
    const { problems, rows } = previewFile('log.csv', stream, plan);
    expect(rows.map(({ line }) => line)).toEqual([2, 3, 4, 6, 7]);
    expect(problems).toHaveLength(5);
    const told = previewFile('log.csv', stream, planWith([{ from: 2, to: 4, given }], {}));
    expect(told.problems.map(({ line }) => line)).toEqual([6, 7]);
    expect(told.rows.map(({ cells }) => cells[0]!.doubtful)).toEqual([false, false, false, true, true]);
  });

  test('bands take their family from it', async () => {
    const bytes = utf8('point,low,high,unit\nstandby,4.75,5.25,V\nstandby,11,13,V\n');
    const plan: FilePlan = {
      ...planOf(bytes),
      given: { family: 'HERON-48' },
      givenRanges: [{ from: 3, to: 3, given: { family: 'CURLEW-60' } }],
    };
    expect(await read(bytes, plan)).toMatchObject({ bands: [{ family: 'HERON-48' }, { family: 'CURLEW-60' }] });
  });

  test('for any ranges a line has what the last range that covers it states, else what the file states', () => {
    const range = fc
      .tuple(fc.nat(12), fc.nat(12), fc.constantFrom('a', 'b', 'c'), fc.boolean())
      .map(([from, to, name, isPoint]): GivenRange => ({ from, to, given: isPoint ? { point: name } : { repair: name } })); // prettier-ignore
    fc.assert(
      fc.property(fc.array(range, { maxLength: 5 }), fc.array(fc.nat(13), { maxLength: 8 }), (ranges, lines) => {
        const given = new GivenLines(planWith(ranges));
        for (const line of lines) {
          const covering = ranges.filter(({ from, to }) => from <= line && line <= to);
          const last = (key: 'repair' | 'point'): string | undefined =>
            covering.findLast((one) => one.given[key] !== undefined)?.given[key] ?? planWith([]).given[key];
          expect(given.at(line)).toMatchObject({ repair: last('repair'), point: last('point'), stage: 'live' });
        }
      }),
      { numRuns: 1000 },
    );
  });
});

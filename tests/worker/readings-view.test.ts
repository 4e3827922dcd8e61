import * as oracle from 'simple-statistics';
import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { DERIVED_FIELDS } from '../../src/columns/derived.ts';
import { GROUP_FIELDS } from '../../src/columns/groups.ts';
import { MODE_UNITS, type Reading } from '../../src/domain/reading.ts';
import { isOutOfBand } from '../../src/domain/verdict.ts';
import { EMPTY_BENCH, judgeBench } from '../../src/worker/bench/bench-data.ts';
import { ReadingsView } from '../../src/worker/bench/readings-view.ts';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import type { GroupLine, GridLine, ReadingRow } from '../../src/worker/contract/readings.ts';
import { BANDS, METERS } from '../support/bench/scenario.ts';
import { univariateReferenceSets } from '../support/published/univariate-reference-sets.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf } from '../support/readings.ts';

const ALL: ReadingsQuery = { filters: [], sort: [] };

function viewOf(all: readonly Partial<Reading>[]): ReadingsView {
  return new ReadingsView(judgeBench({ ...EMPTY_BENCH, log: logOf(...all), bands: BANDS, meters: METERS }));
}

function isGroup(line: GridLine): line is GroupLine {
  return 'group' in line;
}

function numbersOf(rows: readonly ReadingRow[]): { readonly values: number[]; readonly units: Set<string> } {
  const numbers = rows.filter(({ state }) => state === 'value');
  return { values: numbers.map(({ value }) => value), units: new Set(numbers.map(({ mode }) => MODE_UNITS[mode])) };
}

describe('summarise(query, first, last)', () => {
  test('equals simple-statistics over the numbers of the same rows, both ends included', () => {
    fc.assert(
      fc.property(readings, fc.nat(60), fc.nat(60), (all, one, other) => {
        const [first, last] = [Math.min(one, other), Math.max(one, other)];
        const view = viewOf(all);
        const query: ReadingsQuery = { filters: [], sort: [{ field: 'reading', descending: true }] };
        const summary = view.summarise(query, first, last);
        const rows = view.window(query, first, last - first + 1);
        expect(summary.rows).toBe(rows.length);
        expect(summary.overRange).toBe(rows.filter(({ state }) => state === 'over-range').length);
        expect(summary.outOfBand).toBe(rows.filter(({ verdict }) => isOutOfBand(verdict)).length);
        const { values, units } = numbersOf(rows);
        if (units.size !== 1) {
          expect(summary.numbers).toBeUndefined();
          return;
        }
        const numbers = summary.numbers!;
        expect(numbers).toMatchObject({ count: values.length, median: oracle.median(values) });
        expect([numbers.minimum, numbers.maximum]).toEqual([oracle.min(values), oracle.max(values)]);
        const scale = 1e-12 * (1 + oracle.max(values.map(Math.abs)));
        expect(Math.abs(numbers.mean - oracle.mean(values))).toBeLessThanOrEqual(scale);
        const deviation = values.length > 1 ? oracle.sampleStandardDeviation(values) : NaN;
        if (values.length > 1) expect(Math.abs(numbers.deviation - deviation)).toBeLessThanOrEqual(10 * scale);
        else expect(numbers.deviation).toBeNaN();
      }),
      { numRuns: 200 },
    );
  });

  test('tells how the meter showed the least and the greatest of the numbers', () => {
    const view = viewOf([
      { value: 12.58, decimals: 2 },
      { value: 0.64, prefix: -3, decimals: 1 },
      { value: 120, decimals: 0 },
    ]);
    expect(view.summarise(ALL, 0, 2).numbers).toMatchObject({
      minimum: 0.64,
      minimumShown: { prefix: -3, decimals: 1 },
      maximum: 120,
      maximumShown: { prefix: 0, decimals: 0 },
      lastDigit: 0,
    });
  });

  /** Source: NIST Statistical Reference Datasets, Univariate Summary Statistics. */
  test.each(univariateReferenceSets)(
    'agrees with the certified values of $name, its numbers taken as readings',
    (set) => {
      const { numbers } = viewOf(set.readings.map((value) => ({ value }))).summarise(ALL, 0, set.readings.length - 1);
      expect(numbers?.count).toBe(set.readings.length);
      expect(Math.abs(numbers!.mean / set.mean - 1)).toBeLessThanOrEqual(1e-14);
      expect(Math.abs(numbers!.deviation / set.standardDeviation - 1)).toBeLessThanOrEqual(set.within);
    },
  );
});

describe('lines(query, first, count, derived)', () => {
  test('are the readings of the window where nothing is grouped, with the derived fields that are asked for', () => {
    const view = viewOf([{ value: 12 }, { value: 13, stage: 'run-in' }]);
    expect(view.lines(ALL, 0, 9)).toEqual(view.window(ALL, 0, 9));
    const [first, second] = view.lines(ALL, 0, 9, ['change', 'ratio']) as readonly ReadingRow[];
    expect(first?.derived).toEqual({ change: NaN, ratio: NaN });
    expect(second?.derived).toEqual({ change: 1, ratio: NaN });
  });

  test('a query may sort by each derived field', () => {
    const view = viewOf([{ value: 12.2 }, { value: 13 }, { value: 12.4, state: 'value' }, { value: 11 }]);
    for (const field of DERIVED_FIELDS) {
      const rows = view.lines({ filters: [], sort: [{ field, descending: true }] }, 0, 9, [
        field,
      ]) as readonly ReadingRow[];
      const numbers = rows.map((row) => row.derived?.[field] ?? NaN).filter((number) => !Number.isNaN(number));
      expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
    }
  });

  test('of groups say what simple-statistics says of their readings', () => {
    fc.assert(
      fc.property(readings, fc.constantFrom(...GROUP_FIELDS), (all, by) => {
        const view = viewOf(all);
        const query: ReadingsQuery = { ...ALL, group: { by, folded: false, except: [] } };
        const lines = view.lines(query, 0, 1000);
        expect(view.count(query).lines).toBe(lines.length);
        const starts = lines.flatMap((line, at) => (isGroup(line) ? at : []));
        starts.forEach((start, index) => {
          const line = lines[start] as GroupLine;
          const rows = lines.slice(start + 1, starts[index + 1]) as readonly ReadingRow[];
          expect(line).toMatchObject({
            by,
            folded: false,
            readings: rows.length,
            outOfBand: rows.filter(({ verdict }) => isOutOfBand(verdict)).length,
            overRange: rows.filter(({ state }) => state === 'over-range').length,
          });
          const { values, units } = numbersOf(rows);
          expect(line.numbers?.unit).toBe(units.size === 1 ? [...units][0] : undefined);
          if (units.size !== 1) return;
          // Half of a sum and sum of halves round apart in the last bit, so equal means within 1e-12 of the largest reading.
          const last = 1e-12 * Math.max(Number.MIN_VALUE * 1e13, ...values.map(Math.abs));
          expect(Math.abs(line.numbers!.median - oracle.median(values))).toBeLessThanOrEqual(last);
          expect(Math.abs(line.numbers!.spread - oracle.medianAbsoluteDeviation(values))).toBeLessThanOrEqual(last);
        });
      }),
      { numRuns: 200 },
    );
  });

  test('that are folded hide their readings, and no selection of them holds these', () => {
    const view = viewOf([
      { repair: 'T-1' },
      { repair: 'T-2', value: 5 },
      { repair: 'T-1' },
      { repair: 'T-2', value: 6 },
    ]);
    const query: ReadingsQuery = { ...ALL, group: { by: 'repair', folded: true, except: ['T-2'] } };
    const lines = view.lines(query, 0, 9);
    expect(lines.map((line) => (isGroup(line) ? line.group : line.row))).toEqual(['T-1', 'T-2', 1, 3]);
    expect(view.count(query)).toMatchObject({ readings: 4, lines: 4 });
    expect([0, 1, 2, 3].map((row) => view.placeOf(query, row))).toEqual([-1, 2, -1, 3]);
    expect(view.summarise(query, 0, 3)).toMatchObject({ rows: 2, numbers: { mean: 5.5 } });
  });
});

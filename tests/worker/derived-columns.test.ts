import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { DERIVED_FIELDS } from '../../src/columns/derived.ts';
import type { Band } from '../../src/domain/band.ts';
import type { Reading } from '../../src/domain/reading.ts';
import { modifiedZScores } from '../../src/statistics/outliers/modified-z-scores.ts';
import { medianAbsoluteDeviation } from '../../src/statistics/descriptive/median-absolute-deviation.ts';
import { EMPTY_BENCH, judgeBench, type Judged } from '../../src/worker/bench/bench-data.ts';
import { derivedColumn } from '../../src/worker/bench/derived-columns.ts';
import { readingRow } from '../../src/worker/bench/reading-rows.ts';
import { METERS } from '../support/bench/scenario.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf } from '../support/readings.ts';

const place = { family: 'HERON-48', point: 'bulk', basis: 'typed in' } as const;
const BANDS: readonly Band[] = [
  { ...place, mode: 'DC volts', expects: { kind: 'percent', nominal: 12, percent: 5 } },
  { ...place, mode: 'resistance', expects: { kind: 'at least', limit: 4 } },
  { ...place, mode: 'diode', expects: { kind: 'between', low: 2, high: 6 } },
];

function judge(all: readonly Partial<Reading>[], bands = BANDS): Judged {
  return judgeBench({ ...EMPTY_BENCH, log: logOf(...all), bands, meters: METERS });
}

describe('derivedColumn(judged, field)', () => {
  test('margin and margin in U are those of the reading, its limits and its uncertainty', () => {
    fc.assert(
      fc.property(readings, (all) => {
        const judged = judge(all);
        const rows = all.map((_, row) => readingRow(judged, row));
        const margins = rows.map(({ state, value, limits }) =>
          state === 'value' && limits ? Math.min(value - limits.low, limits.high - value) : NaN,
        );
        expect([...derivedColumn(judged, 'margin')]).toEqual(margins);
        const inU = rows.map(({ uncertainty }, row) => margins[row]! / uncertainty);
        expect([...derivedColumn(judged, 'margin-in-u')]).toEqual(inU);
      }),
      { numRuns: 100 },
    );
  });

  test('a deviation is in percent of the nominal value, or of the middle between two limits; one limit alone gives none', () => {
    const judged = judge([
      { point: 'bulk', mode: 'DC volts', value: 12.3 },
      { point: 'bulk', mode: 'DC volts', value: 9 },
      { point: 'bulk', mode: 'diode', value: 5 },
      { point: 'bulk', mode: 'resistance', value: 5 },
      { point: '5V standby', mode: 'DC volts', value: 5 },
      { point: 'bulk', mode: 'DC volts', state: 'over-range', value: NaN },
    ]);
    const [high, low, middle, ...without] = derivedColumn(judged, 'deviation');
    expect(high).toBeCloseTo(2.5, 12);
    expect(low).toBeCloseTo(-25, 12);
    expect(middle).toBeCloseTo(25, 12);
    expect(without).toEqual([NaN, NaN, NaN]);
  });

  test('a deviation from rectified mains is taken from the peak of the mains of the same repair', () => {
    const bands: readonly Band[] = [
      { ...place, mode: 'DC volts', expects: { kind: 'rectified mains', below: 10, above: 2 } },
    ];
    const judged = judge(
      [
        { point: 'mains', mode: 'AC volts', value: 230 },
        { point: 'bulk', mode: 'DC volts', value: 310 },
        { point: 'bulk', mode: 'DC volts', value: 310, repair: 'T-0999' },
      ],
      bands,
    );
    // √2 · 230 V less two diode drops of 1 V each, as trade practice has it (common practice, no source).
    const peak = Math.SQRT2 * 230 - 2;
    const [, measured, unknown] = derivedColumn(judged, 'deviation');
    expect(measured).toBeCloseTo((100 * (310 - peak)) / peak, 10);
    expect(unknown).toBeNaN();
  });

  test('robust z equals the modified z-scores of the numbers of each check', () => {
    fc.assert(
      fc.property(readings, (all) => {
        const judged = judge(all);
        const column = derivedColumn(judged, 'robust-z');
        const { log } = judged.data;
        for (let check = 0; check < log.names.checks.size; check += 1) {
          const rows = [...all.keys()].filter((row) => log.check[row] === check && all[row]!.state === 'value');
          if (rows.length === 0) continue;
          const values = rows.map((row) => all[row]!.value);
          const expected = medianAbsoluteDeviation(values) === 0 ? values.map(() => NaN) : modifiedZScores(values);
          rows.forEach((row, index) => {
            if (Number.isNaN(expected[index])) expect(column[row]).toBeNaN();
            else expect(Math.abs(column[row]! - expected[index]!)).toBeLessThanOrEqual(1e-12 * (1 + Math.abs(expected[index]!))); // prettier-ignore
          });
        }
      }),
      { numRuns: 200 },
    );
  });

  test.each(DERIVED_FIELDS)('%s is no number where the reading is none', (field) => {
    const judged = judge([
      { point: 'bulk', mode: 'DC volts', state: 'over-range', value: 600 },
      { point: 'bulk', mode: 'DC volts', state: 'blank', value: NaN },
    ]);
    expect([...derivedColumn(judged, field)]).toEqual([NaN, NaN]);
  });
});

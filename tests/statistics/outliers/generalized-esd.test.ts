import { describe, expect, test } from 'vitest';
import { generalizedEsd } from '../../../src/statistics/outliers/generalized-esd.ts';
import { rosner1983 } from '../../support/published/rosner-1983.ts';
import { expectWithin } from '../expect-within.ts';

describe('generalizedEsd', () => {
  const result = generalizedEsd(Object.freeze([...rosner1983.readings]), 10, 0.05);

  test('gives the ten steps of Rosner 1983', () => {
    expect(result.steps.map(({ index }) => rosner1983.readings[index])).toEqual(rosner1983.removed);
    result.steps.forEach(({ statistic, critical }, i) => {
      expectWithin(statistic, rosner1983.statistics[i]!, 1e-9);
      expectWithin(critical, rosner1983.criticalValues[i]!, 1e-9);
    });
  });

  test('finds his three outliers though the first two steps are not significant', () => {
    expect(result.steps.slice(0, 3).map(({ statistic, critical }) => statistic > critical)).toEqual([
      false,
      false,
      true,
    ]);
    expect(result.outliers.map((index) => rosner1983.readings[index])).toEqual([6.01, 5.42, 5.34]);
  });

  test('with one step it is the two-sided Grubbs test: Tietjen and Moore 1972, e-Handbook 1.3.5.17.1', () => {
    // The page prints G 2.4687 (cut off); the two-sided critical value was computed independently.
    const uranium = Object.freeze([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]);
    const { steps, outliers } = generalizedEsd(uranium, 1, 0.05);
    expectWithin(steps[0]!.statistic, 2.46876461121245, 1e-12);
    expectWithin(steps[0]!.critical, 2.1266450871954667, 1e-12);
    expect(outliers).toEqual([7]);
  });

  // Two-sided critical values of Grubbs 1969, computed independently.
  test.each([
    [3, 0.05, 1.1543048513440386],
    [4, 0.05, 1.48125],
    [5, 0.05, 1.7150373123433635],
    [6, 0.05, 1.8871451177839336],
    [7, 0.05, 2.0199685076795975],
    [9, 0.05, 2.2150042233255336],
    [10, 0.05, 2.2899540844796036],
    [15, 0.05, 2.54830777174334],
    [20, 0.05, 2.7082456458057584],
    [30, 0.05, 2.908473059740962],
    [100, 0.05, 3.3840829011549176],
    [3, 0.01, 1.1546847100299753],
    [5, 0.01, 1.763678479497797],
    [10, 0.01, 2.482083249715342],
    [20, 0.01, 3.000804157340477],
    [30, 0.01, 3.23607830143087],
  ])('the critical value for %d readings at level %d', (n, level, expected) => {
    const readings = Array.from({ length: n }, (_, i) => i);
    expectWithin(generalizedEsd(readings, 1, level).steps[0]!.critical, expected, 1e-12);
  });

  test('a reading becomes an outlier just where its statistic passes the critical value', () => {
    const even = Array.from({ length: 25 }, (_, i) => i);
    const step = (last: number) => generalizedEsd([...even, last], 1, 0.05).steps[0]!;
    let [inside, outside] = [24, 1000];
    for (let round = 0; round < 60; round++) {
      const middle = (inside + outside) / 2;
      if (step(middle).statistic > step(middle).critical) outside = middle;
      else inside = middle;
    }
    expectWithin(step(inside).statistic, step(inside).critical, 1e-13);
    expect(generalizedEsd([...even, inside], 1, 0.05).outliers).toEqual([]);
    expect(generalizedEsd([...even, outside], 1, 0.05).outliers).toEqual([25]);
  });

  test('equal readings have no outlier, nor has an even row', () => {
    expect(generalizedEsd([5, 5, 5, 5, 5], 2, 0.05).outliers).toEqual([]);
    expect(
      generalizedEsd(
        Array.from({ length: 30 }, (_, i) => i),
        5,
        0.05,
      ).outliers,
    ).toEqual([]);
  });

  test('refuses what has no meaning', () => {
    expect(() => generalizedEsd([1, 2, 3], 2, 0.05)).toThrow('needs at least 4 readings, got 3');
    expect(() => generalizedEsd([1, 2, 3], 0, 0.05)).toThrow('whole number of outliers of at least 1');
    expect(() => generalizedEsd([1, 2, 3], 1, 5)).toThrow('level between 0 and 1');
    expect(() => generalizedEsd([1, 2, NaN], 1, 0.05)).toThrow('finite');
  });
});

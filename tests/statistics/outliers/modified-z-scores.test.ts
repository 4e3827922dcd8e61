import { describe, expect, test } from 'vitest';
import { modifiedZScores } from '../../../src/statistics/outliers/modified-z-scores.ts';
import { expectWithin } from '../expect-within.ts';

describe('modifiedZScores', () => {
  test('Iglewicz and Hoaglin 1993: 8.2 and 8.3 lie beyond 3.5, as no ordinary z-score here does', () => {
    const readings = Object.freeze([2.1, 2.6, 2.4, 2.5, 2.3, 2.1, 2.3, 2.6, 8.2, 8.3]);
    const expected = [
      -1.573833333, 0.6745, -0.2248333333, 0.2248333333, -0.6745, -1.573833333, -0.6745, 0.6745, 25.85583333, 26.3055,
    ];
    modifiedZScores(readings).forEach((score, i) => {
      expectWithin(score, expected[i]!, 1e-9);
    });
  });

  test('uranium readings of Tietjen and Moore 1972: 245.57 scores 29.96', () => {
    const scores = modifiedZScores([199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]);
    expectWithin(scores[7]!, 29.96271357, 1e-9);
    expectWithin(scores[0]!, -1.396452261, 1e-9);
  });

  test('where most readings agree the mean absolute deviation takes over: (x - median) / (1.253314 x 1.2)', () => {
    const scores = modifiedZScores([5, 5, 5, 5, 11]);
    expect(scores.slice(0, 4)).toEqual([0, 0, 0, 0]);
    expectWithin(scores[4]!, 6 / (1.253314 * 1.2), 1e-12);
  });

  test('all are 0 where all readings agree', () => {
    expect(modifiedZScores([5, 5, 5])).toEqual([0, 0, 0]);
  });

  test('refuses no readings, and those that are not finite', () => {
    expect(() => modifiedZScores([])).toThrow('modified z-score needs at least 1 reading');
    expect(() => modifiedZScores([1, NaN])).toThrow('finite');
  });
});

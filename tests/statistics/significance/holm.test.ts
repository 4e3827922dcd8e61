import { expect, test } from 'vitest';
import { holm } from '../../../src/statistics/significance/holm.ts';

test('multiplies the smallest chance by the number of tests, the next by one less, and never falls back', () => {
  // By hand from the rule in Holm 1979: 4 × 0.005, 3 × 0.01, 2 × 0.03, then 0.04, held at the one before.
  const adjusted = holm([0.01, 0.04, 0.03, 0.005]);
  for (const [at, expected] of [0.03, 0.06, 0.06, 0.02].entries()) expect(adjusted[at]).toBeCloseTo(expected, 12);
});

test('no adjusted chance exceeds one, and none without tests', () => {
  expect(holm([0.7, 0.9])).toEqual([1, 1]);
  expect(holm([])).toEqual([]);
});

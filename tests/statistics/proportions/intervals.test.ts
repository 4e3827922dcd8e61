import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { incompleteBeta } from '../../../src/statistics/distributions/beta.ts';
import { clopperPearsonInterval } from '../../../src/statistics/proportions/clopper-pearson-interval.ts';
import { jeffreysInterval } from '../../../src/statistics/proportions/jeffreys-interval.ts';
import { wilsonInterval } from '../../../src/statistics/proportions/wilson-interval.ts';
import { expectWithin } from '../expect-within.ts';

// Newcombe 1998, Statistics in Medicine 17:857-872, table I, at 95 %; printed to four places, of which the
// Clopper-Pearson rows are from memory; Jeffreys by Brown, Cai and DasGupta 2001. Here to ten digits, computed
// independently.
const cases = [
  {
    x: 81,
    n: 263,
    wilson: [0.2552885199, 0.366209577],
    clopper: [0.2527367456, 0.3676219226],
    jeffreys: [0.254521935, 0.3656474992],
  },
  {
    x: 15,
    n: 148,
    wilson: [0.06238639953, 0.1604872417],
    clopper: [0.05784401008, 0.1616504903],
    jeffreys: [0.06044851701, 0.1576431435],
  },
  { x: 0, n: 20, wilson: [0, 0.1611251581], clopper: [0, 0.168433471], jeffreys: [0, 0.1166389829] },
  { x: 29, n: 29, wilson: [0.8830302015, 1], clopper: [0.8805551309, 1], jeffreys: [0.9177135171, 1] },
  {
    x: 5,
    n: 10,
    wilson: [0.2365930905, 0.7634069095],
    clopper: [0.1870860284, 0.8129139716],
    jeffreys: [0.2235286703, 0.7764713297],
  },
] as const;

describe('intervals for a share', () => {
  test.each(cases)('$x of $n at 95 %', ({ x, n, wilson, clopper, jeffreys }) => {
    const found = [wilsonInterval(x, n, 0.95), clopperPearsonInterval(x, n, 0.95), jeffreysInterval(x, n, 0.95)];
    found.forEach(({ lower, upper }, i) => {
      const expected = [wilson, clopper, jeffreys][i]!;
      expectWithin(lower, expected[0], 1e-9);
      expectWithin(upper, expected[1], 1e-9);
    });
  });

  test('Clopper-Pearson leaves exactly half of the rest in each binomial tail', () => {
    const { lower, upper } = clopperPearsonInterval(7, 30, 0.9);
    // P(X >= 7) at the lower limit, P(X <= 7) at the upper one.
    expectWithin(incompleteBeta(lower, 7, 24).lower, 0.05, 1e-12);
    expectWithin(incompleteBeta(upper, 8, 23).upper, 0.05, 1e-12);
  });

  test.each([
    [1, 0.95],
    [20, 0.95],
    [20, 0.5],
    [1000, 0.9999],
  ])('Clopper-Pearson of none of %d at confidence %d, and of all, has its closed form', (n, confidence) => {
    const beyond = ((1 - confidence) / 2) ** (1 / n);
    expect(clopperPearsonInterval(0, n, confidence).lower).toBe(0);
    expectWithin(clopperPearsonInterval(0, n, confidence).upper, 1 - beyond, 1e-11);
    expectWithin(clopperPearsonInterval(n, n, confidence).lower, beyond, 1e-11);
    expect(clopperPearsonInterval(n, n, confidence).upper).toBe(1);
  });

  test('Wilson limits are where the score test just rejects', () => {
    const { lower, upper } = wilsonInterval(7, 30, 0.95);
    for (const p of [lower, upper]) {
      expectWithin(Math.abs(7 / 30 - p) / Math.sqrt((p * (1 - p)) / 30), 1.959963984540054, 1e-12);
    }
  });

  test.each([wilsonInterval, clopperPearsonInterval, jeffreysInterval])(
    '%o holds the share, mirrors, and stays within 0 to 1',
    (interval) => {
      fc.assert(
        fc.property(fc.integer({ min: 1, max: 500 }), fc.nat({ max: 500 }), (n, some) => {
          const x = some % (n + 1);
          const { lower, upper } = interval(x, n, 0.95);
          const mirrored = interval(n - x, n, 0.95);
          expect(lower).toBeGreaterThanOrEqual(0);
          expect(upper).toBeLessThanOrEqual(1);
          expect(lower).toBeLessThanOrEqual(x / n);
          expect(upper).toBeGreaterThanOrEqual(x / n);
          expect(mirrored.lower).toBeCloseTo(1 - upper, 12);
        }),
      );
    },
  );

  test.each([wilsonInterval, clopperPearsonInterval, jeffreysInterval])(
    '%o refuses what has no meaning',
    (interval) => {
      expect(() => interval(0, 0, 0.95)).toThrow('needs a whole number of trials of at least 1');
      expect(() => interval(-1, 5, 0.95)).toThrow('needs a whole number of successes of at least 0');
      expect(() => interval(6, 5, 0.95)).toThrow('needs successes within trials, got 6 of 5');
      expect(() => interval(1, 5, 95)).toThrow('needs a confidence between 0 and 1');
    },
  );
});

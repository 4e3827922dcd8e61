import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { distributionFreeConfidence } from '../../../src/statistics/tolerance/distribution-free-confidence.ts';
import { distributionFreeInterval } from '../../../src/statistics/tolerance/distribution-free-interval.ts';
import { highestToleranceRank } from '../../../src/statistics/tolerance/highest-tolerance-rank.ts';
import { wilksSampleSize } from '../../../src/statistics/tolerance/wilks-sample-size.ts';
import { expectWithin } from '../expect-within.ts';

const shares = fc.double({ min: 0.5, max: 0.999, noNaN: true });

describe('distributionFreeConfidence', () => {
  test('is the closed form of Wilks 1941 for the extreme readings', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 300 }), shares, (n, content) => {
        const oneSided = 1 - content ** n;
        const twoSided = 1 - n * content ** (n - 1) + (n - 1) * content ** n;
        expect(distributionFreeConfidence(n, 1, content)).toBeCloseTo(oneSided, 10);
        expect(distributionFreeConfidence(n, 2, content)).toBeCloseTo(twoSided, 10);
      }),
    );
  });

  test('is a binomial sum for any number of readings left off', () => {
    const [n, content, cut] = [40, 0.9, 5];
    let mass = (1 - content) ** n;
    let sum = 0;
    for (let inside = 0; inside <= n - cut; inside++) {
      sum += mass;
      mass *= ((n - inside) / (inside + 1)) * (content / (1 - content));
    }
    expectWithin(distributionFreeConfidence(n, cut, content), sum, 1e-12);
  });

  test('is 0 when nothing is left', () => {
    expect(distributionFreeConfidence(3, 4, 0.5)).toBe(0);
  });
});

describe('wilksSampleSize', () => {
  // Wilks 1941, 1942; Somerville 1958; ISO 16269-6:2014. Recomputed by exact fractions; 59 / 93, 22 / 38, 299 / 473
  // from memory.
  test.each([
    [0.8, 0.5, 4, 9],
    [0.8, 0.9, 11, 18],
    [0.8, 0.95, 14, 22],
    [0.8, 0.99, 21, 31],
    [0.8, 0.999, 31, 42],
    [0.9, 0.5, 7, 17],
    [0.9, 0.9, 22, 38],
    [0.9, 0.95, 29, 46],
    [0.9, 0.99, 44, 64],
    [0.9, 0.999, 66, 89],
    [0.95, 0.5, 14, 34],
    [0.95, 0.9, 45, 77],
    [0.95, 0.95, 59, 93],
    [0.95, 0.99, 90, 130],
    [0.95, 0.999, 135, 181],
    [0.99, 0.5, 69, 168],
    [0.99, 0.9, 230, 388],
    [0.99, 0.95, 299, 473],
    [0.99, 0.99, 459, 662],
    [0.99, 0.999, 688, 920],
    [0.995, 0.5, 139, 336],
    [0.995, 0.9, 460, 777],
    [0.995, 0.95, 598, 947],
    [0.995, 0.99, 919, 1325],
    [0.995, 0.999, 1379, 1843],
    [0.999, 0.5, 693, 1679],
    [0.999, 0.9, 2302, 3889],
    [0.999, 0.95, 2995, 4742],
    [0.999, 0.99, 4603, 6636],
    [0.999, 0.999, 6905, 9230],
  ])('content %d, confidence %d: %d readings for one side, %d for two', (content, confidence, one, two) => {
    expect(wilksSampleSize(content, confidence, 1)).toBe(one);
    expect(wilksSampleSize(content, confidence, 2)).toBe(two);
  });

  test('95 % content and confidence on one side with the 1st to 5th extreme: 59, 93, 124, 153, 181', () => {
    expect([1, 2, 3, 4, 5].map((rank) => wilksSampleSize(0.95, 0.95, 1, rank))).toEqual([59, 93, 124, 153, 181]);
  });

  test('refuses what has no meaning', () => {
    expect(() => wilksSampleSize(1, 0.95, 1)).toThrow('sample size needs a content between 0 and 1');
    expect(() => wilksSampleSize(0.95, 0, 1)).toThrow('sample size needs a confidence between 0 and 1');
    expect(() => wilksSampleSize(0.95, 0.95, 1, 0)).toThrow('sample size needs a whole rank of at least 1');
  });
});

describe('highestToleranceRank', () => {
  test('is the other way round of the sample size', () => {
    for (const sides of [1, 2] as const) {
      for (const rank of [1, 2, 3, 7]) {
        const n = wilksSampleSize(0.9, 0.95, sides, rank);
        expect(highestToleranceRank(n, 0.9, 0.95, sides)).toBe(rank);
        expect(highestToleranceRank(n - 1, 0.9, 0.95, sides)).toBe(rank - 1);
      }
    }
  });
});

describe('distributionFreeInterval', () => {
  const hundred = Object.freeze(Array.from({ length: 100 }, (_, i) => (i * 37) % 100));

  test('takes as many readings off both ends as the confidence allows', () => {
    expect(distributionFreeInterval(hundred, 0.95, 0.95)).toMatchObject({ lower: 0, upper: 99, rank: 1 });
    expect(distributionFreeInterval(hundred, 0.8, 0.95)).toMatchObject({ lower: 6, upper: 93, rank: 7 });
  });

  test('tells the confidence that it reaches, and would miss it one rank further in', () => {
    const { rank, confidence } = distributionFreeInterval(hundred, 0.8, 0.95)!;
    expect(confidence).toBe(distributionFreeConfidence(100, 2 * rank, 0.8));
    expect(confidence).toBeGreaterThanOrEqual(0.95);
    expect(distributionFreeConfidence(100, 2 * rank + 2, 0.8)).toBeLessThan(0.95);
  });

  test('there is none below 93 readings for 95 % and 95 %', () => {
    expect(distributionFreeInterval(hundred.slice(0, 92), 0.95, 0.95)).toBeUndefined();
    expect(distributionFreeInterval(hundred.slice(0, 93), 0.95, 0.95)).toBeDefined();
  });

  test('refuses readings that are not finite', () => {
    expect(() => distributionFreeInterval([1, NaN], 0.9, 0.9)).toThrow(
      'distribution-free interval needs finite readings',
    );
  });
});

import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { findRoot } from '../../../src/statistics/numerics/find-root.ts';

describe('findRoot', () => {
  test('finds a root to the last places in few calls', () => {
    let calls = 0;
    const root = findRoot(
      (x) => {
        calls += 1;
        return x * x - 2;
      },
      0,
      2,
    );
    expect(Math.abs(root - Math.SQRT2)).toBeLessThanOrEqual(2 ** -51);
    expect(calls).toBeLessThan(20);
  });

  test('returns an end that is a root', () => {
    expect(findRoot((x) => x, 0, 1)).toBe(0);
    expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
  });

  test('is right where bisection alone would be needed: flat, steep and stepped functions', () => {
    expect(findRoot((x) => (x - 0.3) ** 9, 0, 1)).toBeCloseTo(0.3, 1);
    expect(findRoot((x) => Math.tanh(1e6 * (x - 0.3)), 0, 1)).toBeCloseTo(0.3, 12);
    expect(findRoot((x) => (x < 0.3 ? -1 : 1), 0, 1)).toBeCloseTo(0.3, 12);
  });

  test('finds the root of any rising line through any bracket', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        (root, left, right) => {
          const found = findRoot((x) => x - root, root - left, root + right);
          expect(Math.abs(found - root)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(root)));
        },
      ),
    );
  });

  test('throws without a sign change, and where the function is NaN', () => {
    expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow('no sign change between -1 and 1');
    expect(() => findRoot(() => NaN, -1, 1)).toThrow('no sign change');
  });
});

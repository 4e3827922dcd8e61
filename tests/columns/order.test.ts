import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { identityOrder, orderByCode, orderByNumber } from '../../src/columns/order.ts';

const numbers = fc.array(
  fc.oneof(fc.double(), fc.integer({ min: -3, max: 3 }), fc.constantFrom(NaN, 0, -0, Infinity)),
  {
    maxLength: 200,
  },
);

/** The slow order that the fast one must equal: a stable comparison sort, numbers that are missing last. */
function naiveOrder(values: readonly number[], descending: boolean): number[] {
  const rows = values.map((_, row) => row);
  const known = rows.filter((row) => !Number.isNaN(values[row]));
  const sign = descending ? -1 : 1;
  known.sort((a, b) => sign * (Number(values[a]! > values[b]!) - Number(values[a]! < values[b]!)) || a - b);
  return [...known, ...rows.filter((row) => Number.isNaN(values[row]))];
}

describe('orderByNumber(rows, key, descending)', () => {
  test('equals a stable comparison sort in both directions, with missing numbers last', () => {
    fc.assert(
      fc.property(numbers, fc.boolean(), (values, descending) => {
        const key = Float64Array.from(values);
        const ordered = orderByNumber(identityOrder(values.length), key, descending);
        expect([...ordered]).toEqual(naiveOrder(values, descending));
      }),
      { numRuns: 300 },
    );
  });

  test.each([false, true])(
    'tells many numbers apart that differ in their last digits alone (descending: %s)',
    (descending) => {
      const close = fc.array(fc.nat(400), { minLength: 400, maxLength: 600 });
      fc.assert(
        fc.property(close, fc.boolean(), (steps, isNegative) => {
          const values = steps.map((step) => (isNegative ? -1 : 1) * (1 + step * Number.EPSILON));
          const key = Float64Array.from(values);
          expect([...orderByNumber(identityOrder(values.length), key, descending)]).toEqual(
            naiveOrder(values, descending),
          );
        }),
        { numRuns: 20 },
      );
    },
  );

  test('keeps the order of rows given to it where numbers are equal', () => {
    const key = Float64Array.of(1, 0, 1, 0);
    expect([...orderByNumber(Uint32Array.of(2, 3, 0, 1), key)]).toEqual([3, 1, 2, 0]);
  });
});

describe('orderByCode(rows, key, bound, descending)', () => {
  test('equals a stable comparison sort in both directions', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(9), { maxLength: 200 }), fc.boolean(), (codes, descending) => {
        const ordered = orderByCode(identityOrder(codes.length), Uint16Array.from(codes), 10, descending);
        expect([...ordered]).toEqual(naiveOrder(codes, descending));
      }),
      { numRuns: 300 },
    );
  });
});

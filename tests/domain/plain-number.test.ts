import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { plainNumber } from '../../src/domain/plain-number.ts';

describe('plainNumber(value, shown)', () => {
  test.each([
    [0.00064, { prefix: -3, decimals: 3 }, '0.640'],
    [-12.5, { prefix: 0, decimals: 2 }, '-12.50'],
    [-0, { prefix: 0, decimals: 2 }, '0.00'],
    [4.7e6, { prefix: 6, decimals: 1 }, '4.7'],
    [120, { prefix: 0, decimals: 0 }, '120'],
  ])('%f as %j is what the meter showed', (value, shown, text) => {
    expect(plainNumber(value, shown)).toBe(text);
  });

  test.each([
    [0.123456, { prefix: 0, decimals: 2 }, '0.123456'],
    [-0.0001, { prefix: 0, decimals: 2 }, '-0.0001'],
    [1234.5, { prefix: 3, decimals: 1 }, '1.2345'],
    [1.5e30, { prefix: 0, decimals: 0 }, `15${'0'.repeat(29)}`],
  ])('%f as %j has the digits that it takes', (value, shown, text) => {
    expect(plainNumber(value, shown)).toBe(text);
  });

  test('reads back as the very number, and never holds an exponent', () => {
    const value = fc.double({ noNaN: true, min: -1e36, max: 1e36 });
    fc.assert(
      fc.property(value, fc.constantFrom(-12, -6, -3, 0, 3, 9), fc.nat(255), (number, prefix, decimals) => {
        const text = plainNumber(number, { prefix, decimals });
        expect(text).toMatch(/^-?\d+(?:\.\d+)?$/);
        expect(Math.abs(Number(`${text}e${prefix}`) - number)).toBe(0);
      }),
      { numRuns: 5000 },
    );
  });
});

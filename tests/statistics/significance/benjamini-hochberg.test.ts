import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { benjaminiHochberg } from '../../../src/statistics/significance/benjamini-hochberg.ts';
import { expectWithin } from '../expect-within.ts';

// Benjamini and Hochberg 1995, section 4.
const published = [
  0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.324, 0.4262, 0.5719, 0.6528, 0.759, 1,
] as const;
const adjusted = [
  0.0015, 0.003, 0.0095, 0.035625, 0.0603, 0.0638571428571429, 0.0638571428571429, 0.0645, 0.0765, 0.486,
  0.581181818181818, 0.714875, 0.753230769230769, 0.813214285714286, 1,
] as const;

describe('benjaminiHochberg', () => {
  test('Benjamini and Hochberg 1995, section 4: four of fifteen are rejected at 0.05', () => {
    const result = benjaminiHochberg(Object.freeze([...published]));
    result.forEach((p, i) => {
      expectWithin(p, adjusted[i]!, 1e-13);
    });
    expect(result.filter((p) => p <= 0.05)).toHaveLength(4);
  });

  test('keeps the order given', () => {
    const result = benjaminiHochberg([0.5, 0.01, 0.02]);
    [0.5, 0.03, 0.03].forEach((expected, i) => {
      expectWithin(result[i]!, expected, 1e-14);
    });
  });

  test('rejects what the step-up rule of the paper rejects', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { maxLength: 20 }), (pValues) => {
        const q = 0.1;
        const sorted = [...pValues].sort((a, b) => a - b);
        const last = sorted.findLastIndex((p, i) => p <= ((i + 1) / sorted.length) * q);
        expect(benjaminiHochberg(pValues).filter((p) => p <= q * (1 + 1e-12))).toHaveLength(last + 1);
      }),
    );
  });

  test('nothing in, nothing out', () => {
    expect(benjaminiHochberg([])).toEqual([]);
  });

  test.each([-0.1, 1.2, NaN])('refuses %d', (p) => {
    expect(() => benjaminiHochberg([0.5, p])).toThrow('Benjamini-Hochberg needs p-values from 0 to 1');
  });
});

import { describe, expect, test } from 'vitest';
import { logGamma } from '../../../src/statistics/distributions/gamma.ts';
import { noncentralTCdf, noncentralTQuantile } from '../../../src/statistics/distributions/noncentral-t.ts';
import { normalCdf } from '../../../src/statistics/distributions/normal.ts';
import { studentTCdf } from '../../../src/statistics/distributions/student-t.ts';
import { expectWithin } from '../expect-within.ts';

/**
 * The definition, integrated: P(Z <= t s - noncentrality) averaged over s = sqrt(chi2 / degrees), by the trapezoidal
 * rule.
 */
function byIntegration(t: number, degrees: number, noncentrality: number): number {
  const scale = Math.log(2) + (degrees / 2) * Math.log(degrees / 2) - logGamma(degrees / 2);
  const half = 14 / Math.sqrt(2 * degrees);
  const from = Math.max(0, 1 - half);
  const step = (1 + half - from) / 4000;
  let sum = 0;
  for (let i = 1; i < 4000; i++) {
    const s = from + i * step;
    sum +=
      step * normalCdf(t * s - noncentrality) * Math.exp(scale + (degrees - 1) * Math.log(s) - (degrees * s * s) / 2);
  }
  return sum;
}

describe('noncentral t', () => {
  // Computed with mpmath 1.3 at 40 digits by integration; the first is NIST/SEMATECH e-Handbook 7.2.6.3 with n = 43.
  test.each([
    [12.2883355678, 42, 8.4036956068, 0.9900000000001862],
    [2, 4, 1.5, 0.6189289251396547],
    [-1, 5, 0.7, 0.05695804736578705],
    [30, 9, 25, 0.712898349941805],
    [1, 10, 3, 0.024080984665626019],
    [80, 999, 73.56, 0.9991954078625663],
    [1.5, 12, -0.5, 0.9704071577600439],
  ])(
    'P(T <= %d) with %d degrees of freedom, noncentrality %d, is right to 1e-12',
    (t, degrees, noncentrality, expected) => {
      expect(Math.abs(noncentralTCdf(t, degrees, noncentrality) - expected)).toBeLessThan(1e-12);
    },
  );

  test.each([
    [5, 8, 4],
    [-2, 8, 1],
    [70, 299, 40.3],
    [165, 9999, 164.5],
    [240, 2000, 232],
  ])('agrees with integration at %d, %d degrees of freedom, noncentrality %d', (t, degrees, noncentrality) => {
    expect(noncentralTCdf(t, degrees, noncentrality)).toBeCloseTo(byIntegration(t, degrees, noncentrality), 10);
  });

  test("is Student's t where the noncentrality is 0", () => {
    for (const t of [-2, -0.1, 0, 0.7, 5]) expectWithin(noncentralTCdf(t, 6, 0), studentTCdf(t, 6), 1e-13);
  });

  test('the quantile is the inverse', () => {
    for (const p of [0.001, 0.1, 0.5, 0.95, 0.999]) {
      for (const noncentrality of [-3, 0, 2, 30]) {
        expect(noncentralTCdf(noncentralTQuantile(p, 7, noncentrality), 7, noncentrality)).toBeCloseTo(p, 12);
      }
    }
  });
});

import { describe, test } from 'vitest';
import { studentTCdf, studentTQuantile } from '../../../src/statistics/distributions/student-t.ts';
import { expectWithin } from '../expect-within.ts';

// Reference numbers computed with mpmath 1.3 at 40 digits.
describe("Student's t", () => {
  test.each([
    [-3.5, 1, 0.08858553278290475],
    [-0.01, 3, 0.496324555706426],
    [1.25, 7, 0.8742660517171199],
    [2, 52, 0.9746320326166687],
    [-6, 1000, 1.3776845866887346e-9],
  ])('the distribution function at %d with %d degrees of freedom is right to 1e-13', (t, degrees, expected) => {
    expectWithin(studentTCdf(t, degrees), expected, 1e-13);
  });

  test.each([
    [0.975, 1, 12.706204736174693],
    [0.025, 5, -2.5705818356363155],
    [1e-6, 2, -707.1057205259338],
    [0.9995, 52, 3.487690734657226],
    [0.6, 1000, 0.25341451583949871],
    [0.5, 4, 0],
  ])('the %d quantile with %d degrees of freedom is right to 1e-12', (p, degrees, expected) => {
    expectWithin(studentTQuantile(p, degrees), expected, 1e-12);
  });

  test('with 1 degree of freedom it is the Cauchy distribution', () => {
    for (const t of [-40, -1, 0.2, 3]) expectWithin(studentTCdf(t, 1), 0.5 + Math.atan(t) / Math.PI, 1e-13);
  });
});

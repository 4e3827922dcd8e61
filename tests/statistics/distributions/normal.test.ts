import { describe, expect, test } from 'vitest';
import {
  normalCdf,
  normalDensity,
  normalLogCdf,
  normalQuantile,
} from '../../../src/statistics/distributions/normal.ts';
import { expectWithin } from '../expect-within.ts';

// Reference numbers computed with mpmath 1.3 at 40 digits.
describe('normal', () => {
  test.each([
    [-30, 4.906713927148187e-198, -454.3212439563432],
    [-8, 6.220960574271784e-16, -35.01343715991455],
    [-1.96, 0.024997895148220434, -3.6889636517296387],
    [-0.3, 0.38208857781104736, -0.9621028181688507],
    [0, 0.5, -0.6931471805599453],
    [0.5, 0.691462461274013, -0.36894641528865639],
    [1.4, 0.919243340766229, -0.0842044030301727],
    [3, 0.9986501019683699, -0.0013508099647481938],
    [7, 0.9999999999987202, -1.279812543886654e-12],
  ])('normalCdf(%d) and its logarithm are right to 1e-13', (z, cdf, logCdf) => {
    expectWithin(normalCdf(z), cdf, 1e-13);
    expectWithin(normalLogCdf(z), logCdf, 1e-13);
  });

  test.each([
    [-20, -203.91715537109726],
    [-21, -224.46571583141447],
    [-40, -804.6084420137538],
    [-1000, -500007.8266948122],
  ])('normalLogCdf(%d) is right where the function itself comes near its end', (z, expected) => {
    expectWithin(normalLogCdf(z), expected, 1e-14);
  });

  test.each([
    [1e-300, -37.0470962993612],
    [1e-20, -9.262340089798408],
    [1e-10, -6.361340902404056],
    [0.001, -3.0902323061678135],
    [0.025, -1.9599639845400542],
    [0.3, -0.5244005127080408],
    [0.5, 0],
    [0.925, 1.4395314709384562],
    [0.975, 1.959963984540054],
    [0.9999999, 5.199337582290661],
  ])('normalQuantile(%d) is right to 1e-15', (p, expected) => {
    expectWithin(normalQuantile(p), expected, 2e-15);
  });

  test('the density integrates to the distribution function', () => {
    const step = 1 / 64;
    let sum = 0;
    for (let z = -12; z < 1; z += step) sum += step * normalDensity(z + step / 2);
    // The midpoint rule's error is density'(1) step^2 / 24.
    expect(Math.abs(sum - normalCdf(1))).toBeLessThan(4e-6);
  });
});

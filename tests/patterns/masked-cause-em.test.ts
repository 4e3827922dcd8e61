import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  allowedSets,
  fitMaskedCauses,
  posteriorOf,
  type CauseObservation,
} from '../../src/patterns/masked-cause-em.ts';
import { shareVariances } from '../../src/patterns/masked-cause-variance.ts';

const A = 1;
const B = 2;

function observed(failed: number, suspected: number, count: number): CauseObservation {
  return { failed, suspected, count };
}

/** A group's size and observations of it. */
const groups = fc.integer({ min: 1, max: 5 }).chain((size) =>
  fc.record({
    size: fc.constant(size),
    observations: fc.array(
      fc
        .record({
          failed: fc.integer({ min: 0, max: 2 ** size - 1 }),
          suspected: fc.integer({ min: 0, max: 2 ** size - 1 }),
          count: fc.integer({ min: 1, max: 40 }),
        })
        .map((one) => ({ ...one, suspected: one.suspected & ~one.failed }))
        .filter((one) => (one.failed | one.suspected) !== 0),
      { minLength: 1, maxLength: 12 },
    ),
  }),
);

describe('allowedSets(observation)', () => {
  test('holds the failed parts with every choice of suspects, and at least one part', () => {
    expect(allowedSets(observed(0, A | B, 1))).toEqual([3, 2, 1]);
    expect(allowedSets(observed(A, B, 1))).toEqual([3, 1]);
    expect(allowedSets(observed(A, 0, 1))).toEqual([1]);
  });
});

describe('fitMaskedCauses(size, observations, priorRepairs)', () => {
  test('never lets the likelihood fall, with or without a prior', () => {
    fc.assert(
      fc.property(groups, fc.constantFrom(0, 1), ({ size, observations }, prior) => {
        const { logLikelihoods, chances } = fitMaskedCauses(size, observations, prior);
        logLikelihoods.slice(1).forEach((value, at) => {
          expect(value).toBeGreaterThanOrEqual(
            logLikelihoods[at]! - 1e-12 * Math.max(1, Math.abs(logLikelihoods[at]!)),
          );
        });
        expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 9);
      }),
      { numRuns: 150 },
    );
  });

  test('gives the observed shares where nothing is masked', () => {
    const { chances } = fitMaskedCauses(2, [observed(A, 0, 6), observed(B, 0, 3), observed(A | B, 0, 1)], 0);
    expect([...chances]).toEqual([0, 0.6, 0.3, 0.1].map((share) => expect.closeTo(share, 12) as number));
  });

  // The likelihood a³ b (a + b + ab)⁴ with a + b + ab = 1 is greatest at a = 3/4, b = 1/4: the masked repairs add nothing.
  test('shares masked repairs out as the settled ones went', () => {
    const fit = fitMaskedCauses(2, [observed(A, 0, 3), observed(B, 0, 1), observed(0, A | B, 4)], 0);
    expect([...fit.chances]).toEqual([0, 0.75, 0.25, 0].map((share) => expect.closeTo(share, 3) as number));
    expect(posteriorOf(fit, observed(0, A | B, 1))[0]).toBeCloseTo(0.75, 3);
  });

  test('finds the maximum that a search over a grid finds', () => {
    const observations = [
      observed(A, 0, 5),
      observed(A, B, 4),
      observed(0, A | B, 6),
      observed(B, 0, 2),
      observed(3, 0, 3),
    ];
    const { logLikelihoods } = fitMaskedCauses(2, observations, 0);
    let best = -Infinity;
    for (let a = 0.005; a < 1; a += 0.005) {
      for (let b = 0.005; a + b < 0.999; b += 0.005) {
        best = Math.max(best, 5 * Math.log(a) + 4 * Math.log(1 - b) + 2 * Math.log(b) + 3 * Math.log(1 - a - b));
      }
    }
    expect(logLikelihoods.at(-1)).toBeGreaterThanOrEqual(best - 1e-6);
    expect(logLikelihoods.at(-1)).toBeLessThan(best + 0.01);
  });

  test('takes one failed part for likelier than several where nothing was ever settled', () => {
    const fit = fitMaskedCauses(2, [], 1);
    expect(fit.chances[1]).toBeGreaterThan(fit.chances[3]!);
    expect(posteriorOf(fit, observed(0, A | B, 1))[0]).toBeCloseTo(5 / 9, 9);
  });

  test('refuses groups that it cannot enumerate, and observations that say nothing', () => {
    expect(() => fitMaskedCauses(9, [], 1)).toThrow('9 parts');
    expect(() => fitMaskedCauses(0, [], 1)).toThrow('0 parts');
    expect(() => fitMaskedCauses(2, [observed(0, 0, 1)], 1)).toThrow('needs a part');
    expect(() => fitMaskedCauses(2, [observed(A, 0, 0)], 1)).toThrow('needs a part');
  });
});

describe('shareVariances(fit, observations)', () => {
  test('is share (1 - share) / (repairs + prior) where nothing is masked', () => {
    const observations = [observed(A, 0, 12), observed(B, 0, 7)];
    const fit = fitMaskedCauses(2, observations, 1);
    const share = fit.chances[1]! + fit.chances[3]!;
    expect(shareVariances(fit, observations)[0]).toBeCloseTo((share * (1 - share)) / 20, 9);
  });

  test('grows as repairs are masked', () => {
    const settled = [observed(A, 0, 12), observed(B, 0, 8)];
    const masked = [observed(A, 0, 6), observed(B, 0, 4), observed(0, A | B, 10)];
    const [sure] = shareVariances(fitMaskedCauses(2, settled, 1), settled);
    const [unsure] = shareVariances(fitMaskedCauses(2, masked, 1), masked);
    expect(unsure).toBeGreaterThan(1.5 * sure!);
  });

  test('is 0 for a part that stands alone', () => {
    const observations = [observed(A, 0, 5)];
    expect(shareVariances(fitMaskedCauses(1, observations, 1), observations)[0]).toBeCloseTo(0, 12);
  });
});

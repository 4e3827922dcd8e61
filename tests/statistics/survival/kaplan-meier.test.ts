import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { kaplanMeier } from '../../../src/statistics/survival/kaplan-meier.ts';
import { medianSurvival } from '../../../src/statistics/survival/median-survival.ts';
import { expectWithin } from '../expect-within.ts';
import { mercaptopurine, placebo } from './remission.ts';

describe('kaplanMeier', () => {
  // Freireich et al. 1963. Survival and Greenwood's error are printed to three and four places in textbooks (from
  // memory); the log-log limits were computed independently.
  test.each([
    [6, 21, 3, 0.8571428571428571, 0.0763603548321213, 0.619717955265984, 0.951551747646997],
    [7, 17, 1, 0.80672268907563, 0.0869352851800572, 0.563146564622233, 0.92280901920288],
    [10, 15, 1, 0.752941176470588, 0.0963496529943205, 0.503199510799957, 0.889361835169265],
    [13, 12, 1, 0.690196078431372, 0.1068147077750098, 0.431610222486184, 0.849065963349451],
    [16, 11, 1, 0.627450980392157, 0.1140538652567525, 0.367510855987502, 0.804912189471841],
    [22, 7, 1, 0.53781512605042, 0.128233751693034, 0.267778936767135, 0.746790717635394],
    [23, 6, 1, 0.448179271708683, 0.1345914567557604, 0.188052005959232, 0.680142628495241],
  ])(
    '6-mercaptopurine at week %d: %d at risk, %d relapsed, survival %d',
    (time, atRisk, events, survival, error, lower, upper) => {
      const step = kaplanMeier(mercaptopurine, 0.95).find((other) => other.time === time)!;
      expect(step).toMatchObject({ atRisk, events });
      expectWithin(step.survival, survival, 1e-12);
      expectWithin(step.standardError, error, 1e-12);
      expectWithin(step.limits!.lower, lower, 1e-9);
      expectWithin(step.limits!.upper, upper, 1e-9);
    },
  );

  test('without an event it has no step, and no median', () => {
    const steps = kaplanMeier({ times: [3, 5, 5], events: [false, false, false] }, 0.95);
    expect(steps).toEqual([]);
    expect(medianSurvival(steps)).toBeUndefined();
  });

  test('with ties of events and censored times it is the product of the shares that outlive each event', () => {
    const one = fc.record({ time: fc.integer({ min: 0, max: 6 }), event: fc.boolean() });
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 30 }), (all) => {
        const steps = kaplanMeier({ times: all.map(({ time }) => time), events: all.map(({ event }) => event) }, 0.95);
        const times = [...new Set(all.filter(({ event }) => event).map(({ time }) => time))].sort((a, b) => a - b);
        expect(steps.map(({ time }) => time)).toEqual(times);
        let product = 1;
        let sum = 0;
        steps.forEach(({ time, survival, standardError }) => {
          const atRisk = all.filter((other) => other.time >= time).length;
          const events = all.filter((other) => other.event && other.time === time).length;
          product *= 1 - events / atRisk;
          sum += events / (atRisk * (atRisk - events));
          expect(survival).toBeCloseTo(product, 12);
          if (atRisk > events) expect(standardError).toBeCloseTo(product * Math.sqrt(sum), 12);
        });
      }),
    );
  });

  test('steps stand at events only', () => {
    expect(kaplanMeier(mercaptopurine, 0.95)).toHaveLength(7);
  });

  test('placebo falls to 0, where there are no limits', () => {
    const steps = kaplanMeier(placebo, 0.95);
    expect(steps.map(({ time, atRisk, events }) => [time, atRisk, events])).toEqual([
      [1, 21, 2],
      [2, 19, 2],
      [3, 17, 1],
      [4, 16, 2],
      [5, 14, 2],
      [8, 12, 4],
      [11, 8, 2],
      [12, 6, 2],
      [15, 4, 1],
      [17, 3, 1],
      [22, 2, 1],
      [23, 1, 1],
    ]);
    expectWithin(steps[5]!.survival, 0.38095238095238093, 1e-12);
    expect(steps.at(-1)).toMatchObject({ survival: 0, standardError: 0, limits: undefined });
  });

  test('without censoring it is the share still alive, with the binomial error', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 15 }), { minLength: 1, maxLength: 40 }), (times) => {
        const events = times.map(() => true);
        for (const { time, survival, standardError } of kaplanMeier({ times, events }, 0.9)) {
          const share = times.filter((other) => other > time).length / times.length;
          expect(survival).toBeCloseTo(share, 12);
          expect(standardError).toBeCloseTo(Math.sqrt((share * (1 - share)) / times.length), 12);
        }
      }),
    );
  });

  test('the limits hold the survival and stay within 0 to 1', () => {
    for (const { survival, limits } of kaplanMeier(mercaptopurine, 0.999)) {
      expect(limits!.lower).toBeGreaterThan(0);
      expect(limits!.lower).toBeLessThan(survival);
      expect(limits!.upper).toBeGreaterThan(survival);
      expect(limits!.upper).toBeLessThan(1);
    }
  });

  test('refuses what has no meaning', () => {
    expect(() => kaplanMeier({ times: [], events: [] }, 0.95)).toThrow(
      'Kaplan-Meier estimate needs at least 1 reading',
    );
    expect(() => kaplanMeier({ times: [1, 2], events: [true] }, 0.95)).toThrow('as many times as events, got 2 and 1');
    expect(() => kaplanMeier({ times: [-1], events: [true] }, 0.95)).toThrow('times from 0 up, got -1');
    expect(() => kaplanMeier({ times: [NaN], events: [true] }, 0.95)).toThrow('finite');
    expect(() => kaplanMeier({ times: [1], events: [true] }, 95)).toThrow('confidence between 0 and 1');
  });
});

describe('medianSurvival', () => {
  test('Freireich et al. 1963: 23 weeks, and 8 under placebo', () => {
    expect(medianSurvival(kaplanMeier(mercaptopurine, 0.95))).toBe(23);
    expect(medianSurvival(kaplanMeier(placebo, 0.95))).toBe(8);
  });

  test('is not there while more than half survive', () => {
    expect(medianSurvival(kaplanMeier({ times: [1, 5, 5], events: [true, false, false] }, 0.95))).toBeUndefined();
  });

  test('takes the start of a stretch at exactly one half, though products round', () => {
    const times = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14];
    expect(medianSurvival(kaplanMeier({ times, events: times.map(() => true) }, 0.95))).toBe(7);
  });
});

import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { logRank } from '../../../src/statistics/survival/log-rank.ts';
import { expectWithin } from '../expect-within.ts';
import { mercaptopurine, placebo } from './remission.ts';

interface Subject {
  readonly time: number;
  readonly event: boolean;
}

const lifetimes = (subjects: readonly Subject[]): { times: number[]; events: boolean[] } => ({
  times: subjects.map(({ time }) => time),
  events: subjects.map(({ event }) => event),
});

/** Expected events of the first group and the variance, counted anew at every event. */
function counted(first: readonly Subject[], second: readonly Subject[]): { expected: number; variance: number } {
  const all = [...first, ...second];
  let [expected, variance] = [0, 0];
  for (const time of new Set(all.filter(({ event }) => event).map((subject) => subject.time))) {
    const n = all.filter((subject) => subject.time >= time).length;
    const n1 = first.filter((subject) => subject.time >= time).length;
    const d = all.filter((subject) => subject.time === time && subject.event).length;
    expected += (d * n1) / n;
    if (n > 1) variance += (d * n1 * (n - n1) * (n - d)) / (n * n * (n - 1));
  }
  return { expected, variance };
}

describe('logRank', () => {
  test('Freireich et al. 1963: chi-square 16.79 (printed value from memory)', () => {
    const result = logRank(mercaptopurine, placebo);
    expect(result.observed).toEqual([9, 21]);
    expectWithin(result.expected[0], 19.2505009480311, 1e-12);
    expectWithin(result.expected[1], 10.7494990519689, 1e-12);
    expectWithin(result.variance, 6.2569605736755, 1e-12);
    expectWithin(result.chiSquare, 16.7929409892165, 1e-12);
    expectWithin(result.p, 4.16880910933453e-5, 1e-11);
  });

  test('agrees with counting anew at every event, and does not mind which group comes first', () => {
    const group = fc.array(fc.record({ time: fc.integer({ min: 0, max: 9 }), event: fc.boolean() }), {
      minLength: 1,
      maxLength: 15,
    });
    fc.assert(
      fc.property(group, group, (first, second) => {
        const { expected, variance } = counted(first, second);
        fc.pre(variance > 0);
        const result = logRank(lifetimes(first), lifetimes(second));
        expect(result.expected[0]).toBeCloseTo(expected, 10);
        expect(result.variance).toBeCloseTo(variance, 10);
        expect(logRank(lifetimes(second), lifetimes(first)).chiSquare).toBeCloseTo(result.chiSquare, 10);
      }),
    );
  });

  test('refuses what has no meaning', () => {
    const nobody = { times: [], events: [] };
    expect(() => logRank(mercaptopurine, nobody)).toThrow('log-rank test needs at least 1 reading, got 0');
    expect(() => logRank({ times: [3], events: [false] }, { times: [5], events: [false] })).toThrow(
      'log-rank test needs an event while both groups are under observation',
    );
  });
});

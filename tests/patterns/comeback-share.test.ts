import { describe, expect, test } from 'vitest';
import { comebackShare } from '../../src/patterns/comeback-share.ts';
import { seededUniform } from '../../src/statistics/random/seeded-random.ts';
import { times } from './examined.ts';

describe('comebackShare(lifetimes)', () => {
  // Newcombe 1998, Statistics in Medicine 17:857-872, table I, Wilson's method: 0 of 20.
  test('without censoring it is the plain share with Wilson’s limits', () => {
    const none = comebackShare({ times: times(20, () => 90), events: times(20, () => false) });
    expect(none).toMatchObject({ share: 0, lower: 0, days: 90 });
    expect(none?.upper).toBeCloseTo(0.1611, 4);
  });

  test('says nothing of fewer than five boards', () => {
    expect(comebackShare({ times: [9, 9, 9, 9], events: [true, false, false, false] })).toBeUndefined();
  });

  test('covers the truth in about 95 % of benches, however few boards and however lately returned', () => {
    const uniform = seededUniform(4);
    for (const boards of [12, 60]) {
      let covered = 0;
      const benches = 600;
      for (let bench = 0; bench < benches; bench += 1) {
        // One board of five comes back, after 20 days on average; each is watched for up to 100 days.
        const made = times(boards, () => {
          const back = uniform() < 0.2 ? -20 * Math.log(1 - uniform()) : Infinity;
          const watched = 100 * uniform();
          return { time: Math.min(back, watched), event: back <= watched };
        });
        const told = comebackShare({ times: made.map(({ time }) => time), events: made.map(({ event }) => event) })!;
        const truth = 0.2 * (1 - Math.exp(-told.days / 20));
        if (told.lower <= truth && truth <= told.upper) covered += 1;
      }
      expect(covered / benches).toBeGreaterThan(0.93);
    }
  });
});

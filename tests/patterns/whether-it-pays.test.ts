import { describe, expect, test } from 'vitest';
import { minutesAtBench } from '../../src/patterns/minutes-at-bench.ts';
import { whetherItPays } from '../../src/patterns/whether-it-pays.ts';
import { DAY, examined, MONDAY, record, times } from './examined.ts';

const PRICES = new Map([['Q1', 3], ['F1', 1]]); // prettier-ignore
const repair = (minutes: number, replaced: readonly string[], given: Parameters<typeof record>[0] = {}) =>
  examined({}, { minutes, replaced: new Set(replaced), record: record(given) });

describe('whetherItPays(repairs, prices, fee)', () => {
  const NONE = { times: [], events: [] };
  const made = [
      repair(30, ['Q1', 'F1']),
      examined({}, { minutes: 60, replaced: new Set(['F1']), record: record({ outcome: 'comeback' }), cameBack: MONDAY + 9 * DAY }),
      repair(30, ['Q1'], { comebackOf: 'T-0002' }),
      repair(60, [], { outcome: 'not worth repairing' }),
      repair(20, ['Q7'], { outcome: 'open' }),
    ]; // prettier-ignore
  const pays = whetherItPays(made, NONE, PRICES, 40);
  const thrice = whetherItPays([...made, ...made, ...made], NONE, PRICES, 40);

  test('earns the fee once for a board returned working, and nothing for a comeback', () => {
    expect(thrice.left).toMatchObject({ repairs: 12, mean: (36 + 39 - 3 + 0) / 4 });
    expect(thrice.leftPerHour).toEqual({ repairs: 12, amount: 72 / 3 });
  });

  // Student's t for 95 % and 4 degrees of freedom: 2.776 (tables). Minutes 30 60 30 60 20: mean 40, standard deviation 18.708.
  test('gives the minutes with quartiles and limits', () => {
    expect(pays.minutes).toMatchObject({ repairs: 5, mean: 40, quartiles: [30, 30, 60] });
    expect(pays.minutes?.high).toBeCloseTo(40 + (2.776 * 18.708) / Math.sqrt(5), 2);
  });

  test('counts comebacks of what was returned, and repairs with a part that has no price', () => {
    expect(pays).toMatchObject({ returned: 3, cameBack: 1, unpriced: 1, partsCost: { repairs: 4, mean: 2 } });
  });

  test('says nothing of what is left of few repairs', () => {
    expect([pays.left, pays.leftPerHour]).toEqual([undefined, undefined]);
  });

  test('takes one fee off for a comeback of which the first outcome alone tells', () => {
    const unlinked = examined({}, { minutes: 30, record: record({ outcome: 'comeback' }), cameBack: NaN });
    const { left } = whetherItPays([...times(11, () => repair(30, [])), unlinked], NONE, PRICES, 40);
    expect(left?.mean).toBeCloseTo((11 * 40) / 12, 12);
  });

  // Newcombe 1998, Statistics in Medicine 17:857-872, table I, Wilson's method: 0 of 20, lower limit of 20 of 20 by symmetry.
  test('boards that all earned the fee do not make it certain', () => {
    const { left } = whetherItPays(
      times(20, () => repair(30, ['Q1'])),
      NONE,
      PRICES,
      40,
    );
    expect(left?.mean).toBe(37);
    expect(left?.low).toBeCloseTo(37 - 40 * 0.1611, 2);
  });

  test('says nothing of what it has too few of, or was not told', () => {
    expect(whetherItPays([examined({})], NONE)).toEqual({
      repairs: 1, minutes: undefined, partsCost: undefined, unpriced: 0, returned: 0, cameBack: 0, comebackShare: undefined,
      left: undefined, leftPerHour: undefined,
    }); // prettier-ignore
    expect(
      whetherItPays(
        times(12, () => repair(30, ['Q1'])),
        NONE,
        PRICES,
      ).left,
    ).toBeUndefined();
  });
});

describe('minutesAtBench(times)', () => {
  const minute = 60_000;

  test('adds the gaps between readings, without those in which the board lay aside', () => {
    expect(minutesAtBench([0, 5 * minute, 25 * minute, 200 * minute, 201 * minute])).toBe(26);
  });

  test('needs two readings with a time', () => {
    expect(minutesAtBench([])).toBeUndefined();
    expect(minutesAtBench([NaN, 5 * minute, NaN])).toBeUndefined();
  });
});

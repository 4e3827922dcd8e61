import { describe, expect, test } from 'vitest';
import { comebacksAmong } from '../../src/domain/comebacks.ts';
import { DAY, MONDAY, record } from '../patterns/examined.ts';

describe('comebacksAmong(records)', () => {
  test('a link or an outcome is enough, and both are one', () => {
    const found = comebacksAmong([
      record({ id: 'T-0001' }),
      record({ id: 'T-0002', outcome: 'comeback' }),
      record({ id: 'T-0003', outcome: 'comeback' }),
      record({ id: 'T-0004', comebackOf: 'T-0001', received: MONDAY + 9 * DAY }),
      record({ id: 'T-0005', comebackOf: 'T-0003', received: MONDAY + 12 * DAY }),
    ]);
    expect([...found].sort()).toEqual([
      ['T-0001', MONDAY + 9 * DAY],
      ['T-0002', NaN],
      ['T-0003', MONDAY + 12 * DAY],
    ]);
  });

  test('goes by the first day that is known, in whatever order the records stand', () => {
    const records = [
      record({ id: 'T-0002', comebackOf: 'T-0001', received: NaN }),
      record({ id: 'T-0003', comebackOf: 'T-0001', received: MONDAY + 30 * DAY }),
      record({ id: 'T-0004', comebackOf: 'T-0001', received: MONDAY + 8 * DAY }),
    ];
    expect(comebacksAmong(records).get('T-0001')).toBe(MONDAY + 8 * DAY);
    expect(comebacksAmong(records.toReversed()).get('T-0001')).toBe(MONDAY + 8 * DAY);
  });
});

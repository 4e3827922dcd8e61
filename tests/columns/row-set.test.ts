import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { RowSet } from '../../src/columns/row-set.ts';

describe('RowSet', () => {
  test('holds, counts, lists and intersects rows as an ordinary set does', () => {
    const members = fc.uniqueArray(fc.nat(199), { maxLength: 200 });
    fc.assert(
      fc.property(members, members, (first, second) => {
        const one = RowSet.where(200, (row) => first.includes(row));
        const two = RowSet.where(200, (row) => second.includes(row));
        expect(one.count()).toBe(first.length);
        expect([...one.rows()]).toEqual([...first].sort((a, b) => a - b));
        const both = [...one.and(two).rows()];
        expect(both).toEqual(first.filter((row) => second.includes(row)).sort((a, b) => a - b));
      }),
    );
  });

  test('refuses to intersect sets over logs of different lengths', () => {
    expect(() => RowSet.where(3, () => true).and(RowSet.where(4, () => true))).toThrow('different lengths');
  });
});

import { describe, expect, test } from 'vitest';
import { countAlike, shareAlike } from '../../src/patterns/alike.ts';

describe('countAlike(lists)', () => {
  const [one, other] = [['Q1', 'F1'], ['D2']];

  test('counts equal lists together, whether or not they are one object', () => {
    expect(countAlike([one, other, ['Q1', 'F1'], one, []])).toEqual([
      { list: ['Q1', 'F1'], count: 3 },
      { list: ['D2'], count: 1 },
      { list: [], count: 1 },
    ]);
  });

  test('keeps apart what holds other names or another order', () => {
    expect(countAlike([['Q1', 'F1'], ['F1', 'Q1'], ['Q1,F1'], ['Q1\nF1']])).toHaveLength(4);
  });
});

describe('shareAlike()', () => {
  test('gives the first of equal lists for all of them', () => {
    const share = shareAlike();
    const first = ['Q1'];
    expect(share(first)).toBe(first);
    expect(share(['Q1'])).toBe(first);
    expect(share(['Q2'])).toEqual(['Q2']);
  });
});

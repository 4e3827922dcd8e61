import { expect, test } from 'vitest';
import type { GroupLine } from '../../../src/session/answers.ts';
import { foldedOther, groupText } from '../../../src/ui/grid/group-text.ts';

const line: GroupLine = {
  group: 'HERON-48',
  by: 'family',
  folded: true,
  readings: 1402,
  outOfBand: 12,
  judged: 340,
  overRange: 3,
  numbers: { count: 1300, median: 12.01, spread: 0.05, unit: 'V', lastDigit: -2 },
};

test('a group says its readings, its share out of band, and what its numbers come to', () => {
  expect(groupText(line, '.')).toBe(
    'HERON-48: 1,402 readings, out of band 12 of 340, 3.5\u00a0%, 3 over-range, median 12.01\u00a0V, median absolute deviation 50\u00a0mV',
  );
});

test('a group of readings that state nothing, of two units and without bands, says just that', () => {
  const bare: GroupLine = { group: '', by: 'family', folded: true, readings: 1, outOfBand: 0, judged: 0, overRange: 0 };
  expect(groupText(bare, ',')).toBe('family not stated: 1 reading, none judged');
});

test('a group is folded and unfolded again beside the others', () => {
  const once = foldedOther({ by: 'family', folded: true, except: ['A'] }, 'B');
  expect(once).toEqual({ by: 'family', folded: true, except: ['A', 'B'] });
  expect(foldedOther(once, 'A').except).toEqual(['B']);
});

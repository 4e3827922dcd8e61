import { describe, expect, test } from 'vitest';
import {
  FAIL,
  HIGH,
  LOW,
  CONDITIONAL_FAIL,
  CONDITIONAL_PASS,
  NO_BAND,
  NOT_JUDGED,
  PASS,
} from '../../src/domain/verdict.ts';
import { verdictText } from '../../src/ui/verdict-text.ts';
import { countOf, countText, dayText, listText, minuteText } from '../../src/ui/words.ts';

test('countText(count, mark) sets thousands apart by the sign that is not the decimal mark', () => {
  expect(countText(4012, '.')).toBe('4,012');
  expect(countText(4012, ',')).toBe('4.012');
});

test('countOf(count, noun, mark) puts the noun in the plural where it must', () => {
  expect([0, 1, 2].map((count) => countOf(count, 'reading', '.'))).toEqual(['0 readings', '1 reading', '2 readings']);
});

test('dayText(time) and minuteText(time) show wall time in no zone, and nothing for an unknown one', () => {
  const time = Date.UTC(2026, 2, 29, 2, 30, 59);
  expect([dayText(time), minuteText(time)]).toEqual(['2026-03-29', '2026-03-29 02:30']);
  expect([dayText(NaN), minuteText(NaN)]).toEqual(['', '']);
});

test('listText(texts) joins texts as a sentence does', () => {
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listText)).toEqual(['', 'a', 'a and b', 'a, b and c']);
});

describe('verdictText(code, word)', () => {
  test.each([
    [NO_BAND, '·', 'no band', false],
    [NOT_JUDGED, '·', 'not judged', false],
    [PASS, '✓', 'pass', false],
    [CONDITIONAL_PASS + HIGH, '◇', 'conditional pass, high', false],
    [CONDITIONAL_FAIL + LOW, '◆', 'conditional fail, low', true],
    [FAIL + LOW, '▼', 'low', true],
    [FAIL + HIGH, '▲', 'high', true],
  ] as const)('writes the code %i as %s %s', (code, sign, word, wrong) => {
    expect(verdictText(code)).toEqual({ sign, word, wrong });
  });

  test("puts a part's plain word before its own", () => {
    expect(verdictText(FAIL + LOW, 'shorted')).toEqual({ sign: '▼', word: 'shorted', wrong: true });
    expect(verdictText(PASS, 'good')).toEqual({ sign: '✓', word: 'good', wrong: false });
  });
});

import { expect, test } from 'vitest';
import { readingLine, readingText } from '../../../src/ui/grid/reading-text.ts';
import { fakeRow } from './fake-session.ts';

const volts = { ...fakeRow(4), value: 387.2, prefix: 0, decimals: 1 };

test('a reading is parted at the decimal mark, with the digits and the prefix that the meter showed', () => {
  expect(readingText(volts, '.')).toEqual({ whole: '387', fraction: '.2', unit: 'V' });
  expect(readingText(volts, ',')).toEqual({ whole: '387', fraction: ',2', unit: 'V' });
  expect(readingText({ ...volts, mode: 'resistance', value: 640e3, prefix: 6, decimals: 3 }, '.')).toEqual({
    whole: '0',
    fraction: '.640',
    unit: 'MΩ',
  });
});

test('a reading without decimals has no fraction', () => {
  expect(readingText({ ...volts, value: -12, decimals: 0 }, '.')).toEqual({ whole: '−12', fraction: '', unit: 'V' });
});

test.each([
  ['over-range', 'OL\u00a0V'],
  ['below-range', 'below range'],
  ['beep', 'beep'],
  ['no beep', 'no beep'],
  ['blank', 'blank'],
] as const)('%s is written in words', (state, line) => {
  expect(readingLine({ ...volts, state, value: NaN }, '.')).toBe(line);
});

test('number and unit are joined by a no-break space', () => {
  expect(readingLine(volts, '.')).toBe('387.2\u00a0V');
});

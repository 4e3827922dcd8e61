import { expect, test } from 'vitest';
import { closingLine, parseClosingLine } from './closing-line.ts';

test('the closing line names the three counts and nothing else', () => {
  expect(closingLine({ passed: 12, failed: 0, skipped: 3 })).toBe('12 passed, 0 failed, 3 skipped');
});

test('a closing line is read back as the counts it was written from', () => {
  const tally = { passed: 1, failed: 20, skipped: 300 };
  expect(parseClosingLine(closingLine(tally))).toEqual(tally);
});

test.each(['', 'Tests  4 passed (4)', '1 passed, 0 failed, 0 skipped.', ' 1 passed, 0 failed, 0 skipped'])(
  'another line is no closing line: "%s"',
  (line) => {
    expect(parseClosingLine(line)).toBeUndefined();
  },
);

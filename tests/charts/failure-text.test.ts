import { expect, test } from 'vitest';
import type { FailureBar } from '../../src/ui/charts/failure-bars.ts';
import { barLabel, barSentence, kindsIn } from '../../src/ui/charts/failure-text.ts';
import { chanceText, fixedText, percentText, shareText } from '../../src/ui/charts/share-text.ts';
import { f1, q1 } from '../ui/grid/fake-patterns.ts';

const fuse: FailureBar = { ...f1, inferred: 0 };
const switching: FailureBar = { ...q1, inferred: 4.31 };

test('a bar is labelled with what failed, what is inferred, and what was replaced', () => {
  expect(barLabel(switching, '.')).toBe('41 + 4.3 inferred · replaced 58');
  expect(barLabel(fuse, '.')).toBe('50 · replaced 50');
  expect(barLabel({ ...switching, inferred: 0.04 }, ',')).toBe('41 + under 0,05 inferred · replaced 58');
});

test('a bar is read out as sentences; a fuse is proved failed in circuit, so nothing is said of out of circuit', () => {
  expect(barSentence(switching, 88, '.')).toBe(
    'Q1 proved failed in 41 of 88 repairs (30 shorted, 8 leaky, 3 open). Suspected in 9 more. Read in 80; of the others it is expected to have failed in 4.3. It fails in 36 to 57\u00a0% of repairs, with 95 % confidence. Replaced in 58, 12 of them although it had measured good.',
  );
  expect(barSentence({ ...fuse, failed: 0, open: 0, replaced: 3 }, 89, '.')).toBe(
    'F1 proved failed in 0 of 89 repairs. Replaced in 3.',
  );
  expect(barSentence({ ...fuse, share: undefined }, 88, '.')).not.toContain('confidence');
});

test('a share is told in whole percent, a small one with a decimal, a tiny one as none', () => {
  expect(shareText({ low: 0.0449, high: 0.155 }, '.')).toBe('4 to 16\u00a0%');
  expect(percentText(0.004, ',')).toBe('0,4\u00a0%');
  expect(percentText(1e-9, '.')).toBe('0\u00a0%');
  expect(percentText(1, '.')).toBe('100\u00a0%');
});

test('a negative number has a true minus sign, but not where it rounds to zero', () => {
  expect(fixedText(-1.25, 1, ',')).toBe('\u22121,3');
  expect(fixedText(-0.04, 1, '.')).toBe('0.0');
});

test('a small probability is told as smaller than what is worth telling', () => {
  expect(chanceText(0.034, '.')).toBe('p = 0.03');
  expect(chanceText(0.0041, '.')).toBe('p = 0.004');
  expect(chanceText(1e-9, ',')).toBe('p < 0,001');
});

test('the legend names only what is drawn', () => {
  expect(kindsIn([fuse])).toEqual(['open']);
  expect(kindsIn([switching, { ...fuse, failed: 51 }])).toEqual(['shorted', 'leaky', 'open', 'failed', 'inferred']);
});

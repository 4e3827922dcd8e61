import { expect, test } from 'vitest';
import type { DerivedField } from '../../../src/session/answers.ts';
import { derivedText } from '../../../src/ui/grid/derived-text.ts';
import { fakeRow } from './fake-session.ts';

const row = (derived: Partial<Record<DerivedField, number>>) => ({ ...fakeRow(6), derived });

test.each([
  ['margin', -0.07, '−70\u00a0mV'],
  ['margin', 2.3, '2,30\u00a0V'],
  ['margin-in-u', -0.4666, '−0,5\u00a0U'],
  ['deviation', 5.29, '+5,3\u00a0%'],
  ['deviation', -12, '−12,0\u00a0%'],
  ['change', 0.25, '+0,25\u00a0V'],
  ['change', -0.25, '−0,25\u00a0V'],
  ['ratio', 0.6171, '0,617'],
  ['ratio', 1250.4, '1250'],
  ['ratio', 2.5e-9, '2,50e−9'],
  ['robust-z', 3.5, '+3,5'],
] as const)('%s %d reads %s', (field, value, text) => {
  expect(derivedText(field, row({ [field]: value }), ',')).toBe(text);
});

test('what a reading has not, or was not asked for, is empty', () => {
  expect(derivedText('ratio', row({ ratio: NaN }), '.')).toBe('');
  expect(derivedText('ratio', fakeRow(6), '.')).toBe('');
});

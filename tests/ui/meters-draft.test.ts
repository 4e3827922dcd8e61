import { expect, test } from 'vitest';
import type { Meter } from '../../src/domain/meter.ts';
import { EMPTY_ACCURACY, meterDraftOf, readMeter, type AccuracyDraft } from '../../src/ui/panels/meters-draft.ts';

const meter: Meter = {
  name: 'M1',
  accuracies: [
    { mode: 'DC volts', upTo: 60, percent: 0.5, counts: 2, resolution: 0.01 },
    { mode: 'resistance', upTo: 60e6, percent: 1.5, counts: 3 },
  ],
  overRangeMark: '-OFL-',
  calibrationDue: Date.UTC(2026, 8, 1),
};

const draft = (name: string, ...lines: readonly AccuracyDraft[]) => ({ ...meterDraftOf(undefined, '.'), name, lines });

test('a profile is given back as its draft was made of it, with either decimal mark', () => {
  for (const mark of ['.', ','] as const) {
    const { lines, ...known } = meterDraftOf(meter, mark);
    expect(readMeter({ ...known, name: ' M1 ', lines: [...lines, EMPTY_ACCURACY] }, mark)).toEqual({ meter });
  }
});

test('a line is read as data sheets write it', () => {
  const line = {
    mode: 'DC volts',
    upTo: '600mV',
    resolution: '0,1 mV',
    percent: '± 0,5 %',
    counts: '2 counts',
  } as const;
  expect(readMeter(draft('M3', line), '.')).toEqual({
    meter: { name: 'M3', accuracies: [{ mode: 'DC volts', upTo: 0.6, resolution: 1e-4, percent: 0.5, counts: 2 }] },
  });
});

test('a meter without lines is one of unknown accuracy', () => {
  expect(readMeter(draft('M3', EMPTY_ACCURACY), '.')).toEqual({ meter: { name: 'M3', accuracies: [] } });
});

test.each([
  ['', {}, 'A meter needs a name.'],
  ['M3', { upTo: '60' }, 'Line 1, DC volts: “± % of reading” is empty; take it from the meter’s data sheet.'],
  ['M3', { upTo: '60 Ω', percent: '1', counts: '2' }, 'Line 1, DC volts: “60 Ω” is in Ω, and this is measured in V.'],
  [
    'M3',
    { upTo: '60', percent: '-1', counts: '2' },
    'Line 1, DC volts: “± % of reading” is negative. An accuracy is ±: write it without a sign.',
  ],
  [
    'M3',
    { upTo: '0', percent: '1', counts: '2' },
    'Line 1, DC volts: “range up to” is not above zero. Take it from the meter’s data sheet.',
  ],
  [
    'M3',
    { upTo: '6', resolution: '60', percent: '1', counts: '2' },
    'Line 1, DC volts: “last digit” is larger than the range itself. Correct one of the two.',
  ],
] as const)('says what is wrong: %#', (name, line, sentence) => {
  const read = readMeter(draft(name, { ...EMPTY_ACCURACY, ...line }), '.');
  expect('fault' in read ? read.fault : '').toBe(sentence);
});

test('an over-range mark that reads as a number is refused', () => {
  const read = readMeter({ ...draft('M3', EMPTY_ACCURACY), overRangeMark: '1' }, '.');
  expect('fault' in read ? read.fault : '').toMatch('The over-range mark “1” reads as a number');
});

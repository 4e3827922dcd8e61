import { expect, test } from 'vitest';
import type { Meter } from '../../src/domain/meter.ts';
import { EMPTY_ACCURACY, accuracyDraftOf, readMeter } from '../../src/ui/panels/meters-draft.ts';

const meter: Meter = {
  name: 'M1',
  accuracies: [
    { mode: 'DC volts', upTo: 60, percent: 0.5, counts: 2, resolution: 0.01 },
    { mode: 'resistance', upTo: 60e6, percent: 1.5, counts: 3 },
  ],
};

test('a profile is given back as its draft was made of it, with either decimal mark', () => {
  for (const mark of ['.', ','] as const) {
    const lines = meter.accuracies.map((accuracy) => accuracyDraftOf(accuracy, mark));
    expect(readMeter(' M1 ', [...lines, EMPTY_ACCURACY], mark)).toEqual({ meter });
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
  expect(readMeter('M3', [line], '.')).toEqual({
    meter: { name: 'M3', accuracies: [{ mode: 'DC volts', upTo: 0.6, resolution: 1e-4, percent: 0.5, counts: 2 }] },
  });
});

test('a meter without lines is one of unknown accuracy', () => {
  expect(readMeter('M3', [EMPTY_ACCURACY], '.')).toEqual({ meter: { name: 'M3', accuracies: [] } });
});

test.each([
  ['', {}, 'A meter needs a name.'],
  ['M3', { upTo: '60' }, 'Line 1, DC volts: “± % of reading” is empty; take it from the meter’s data sheet.'],
  ['M3', { upTo: '60 Ω', percent: '1', counts: '2' }, 'Line 1, DC volts: “60 Ω” is in Ω, and this is measured in V.'],
  [
    'M3',
    { upTo: '60', percent: '-1', counts: '2' },
    'The accuracy for DC volts has a negative term: it is ±, so write it without a sign.',
  ],
  ['M3', { upTo: '0', percent: '1', counts: '2' }, 'The range for DC volts must reach above zero.'],
] as const)('says what is wrong: %#', (name, line, sentence) => {
  const read = readMeter(name, [{ ...EMPTY_ACCURACY, ...line }], '.');
  expect('fault' in read ? read.fault : '').toBe(sentence);
});

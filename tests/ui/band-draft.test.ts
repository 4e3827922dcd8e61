import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { BAND_KINDS, limitsOf, type Expectation } from '../../src/domain/band.ts';
import { UNITS } from '../../src/domain/quantity.ts';
import {
  FIELDS_OF,
  draftOf,
  emptyDraft,
  movableSides,
  readDraft,
  turnedTo,
  withLimit,
  type BandDraft,
} from '../../src/ui/panels/band-draft.ts';
import { quantityField, readPercent, readQuantity } from '../../src/ui/panels/band-typed.ts';

const BLANK: BandDraft = { kind: 'between', low: '', high: '', nominal: '', percent: '', below: '', above: '', mains: '' }; // prettier-ignore

function faultOf(draft: Partial<BandDraft>): string | undefined {
  const read = readDraft({ ...BLANK, ...draft }, 'V', '.');
  return 'fault' in read ? read.fault : undefined;
}

describe('readQuantity(text, unit)', () => {
  test.each([
    ['12,7', 'V', 12.7],
    ['12.7', 'V', 12.7],
    ['.5', 'V', 0.5],
    ['470 mV', 'V', 0.47],
    ['470\u00a0mV', 'V', 0.47],
    ['−5 V', 'V', -5],
    ['640k', 'Ω', 640e3],
    ['640 kΩ', 'Ω', 640e3],
    ['640 Kohm', 'Ω', 640e3],
    ['1M', 'Ω', 1e6],
    ['1 \u2126', 'Ω', 1],
    // Resistors are marked so in IEC 60062:2016, 3; from memory.
    ['4k7', 'Ω', 4700],
    ['0R15', 'Ω', 0.15],
    ['82u', 'F', 82e-6],
    ['82 µF', 'F', 82e-6],
    ['1.5e3', 'Ω', 1500],
  ] as const)('reads %s in %s as %d', (text, unit, value) => {
    expect(readQuantity(text, unit, '.')).toEqual({ value });
  });

  test.each([
    ['', 'V', 'is no number'],
    ['twelve', 'V', 'write it as 12.7 V'],
    ['12.7.1', 'V', 'is no number'],
    ['5 A', 'V', '“5 A” is in A, and this is measured in V.'],
    ['5 kg', 'V', '“kg” is no unit that is known here'],
  ] as const)('says what is wrong with “%s” in %s', (text, unit, sentence) => {
    const typed = readQuantity(text, unit, '.');
    expect('fault' in typed ? typed.fault : '').toContain(sentence);
  });

  test('asks what is meant where a mark may part thousands', () => {
    expect(readQuantity('1,234', 'V', '.')).toEqual({ fault: '“1,234” may be 1.234 or 1234: write the one that is meant.' }); // prettier-ignore
    expect(readQuantity('1,234', 'V', ',')).toEqual({ value: 1.234 });
    expect(readQuantity('0,234', 'V', '.')).toEqual({ value: 0.234 });
  });

  test('reads back what a field shows, with either mark', () => {
    const value = fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((number) => Number(number.toPrecision(6)));
    fc.assert(
      fc.property(value, fc.constantFrom(...UNITS), fc.constantFrom('.' as const, ','), (number, unit, mark) => {
        fc.pre(number === 0 || Math.abs(number) > 1e-11);
        expect(readQuantity(quantityField(number, unit, mark), unit, mark)).toEqual({ value: number + 0 });
      }),
    );
  });

  test('reads percentages with or without their sign', () => {
    expect(readPercent('± 2,5 %', '.')).toEqual({ value: 2.5 });
    expect(readPercent('5', ',')).toEqual({ value: 5 });
    expect(readPercent('five', '.')).toEqual({ fault: '“five” is no percentage: write it as 2.5.' });
  });
});

describe('readDraft(draft)', () => {
  const samples: readonly Expectation[] = [
    { kind: 'between', low: 11.4, high: 12.6 },
    { kind: 'percent', nominal: 12, percent: 5 },
    { kind: 'at least', limit: 20e3 },
    { kind: 'at most', limit: 1.5 },
    { kind: 'open', limit: 1e6 },
    { kind: 'shorted', limit: 2 },
    { kind: 'rectified mains', below: 10, above: 2 },
    { kind: 'rectified mains', below: 10, above: 2, mains: 230 },
  ];

  test('gives back the band that a draft was made of, for every kind', () => {
    expect(new Set(samples.map(({ kind }) => kind))).toEqual(new Set(BAND_KINDS));
    for (const expects of samples) {
      for (const mark of ['.', ','] as const)
        expect(readDraft(draftOf(expects, 'V', mark), 'V', mark)).toEqual({ expects });
    }
  });

  test.each([
    [{ low: '12.6', high: '11.4' }, 'The low limit lies above the high limit: swap them.'],
    [{ low: '11.4' }, 'This band has no high limit yet: fill it in.'],
    [{}, 'This band has no low limit yet: fill it in.'],
    [{ kind: 'percent', percent: '5' }, 'A percent band needs a nominal value: fill it in.'],
    [{ kind: 'percent', nominal: '12' }, 'This band has no percentage yet: fill it in.'],
    [{ kind: 'percent', nominal: '0', percent: '5' }, 'A percent band needs a nominal value other than zero.'],
    [{ kind: 'percent', nominal: '12', percent: '-5' }, 'A percent band needs a percentage above zero.'],
    [{ kind: 'rectified mains', below: '10' }, 'This band has no % above the peak yet: fill it in.'],
  ] as const)('says what is wrong with %o', (draft, sentence) => {
    expect(faultOf(draft)).toBe(sentence);
  });

  test('names the field that is to blame', () => {
    expect(readDraft({ ...BLANK, low: '1x', high: '2' }, 'V', '.')).toMatchObject({ field: 'low' });
  });
});

describe('a draft that changes', () => {
  const percent = draftOf({ kind: 'percent', nominal: 12, percent: 5 }, 'V', '.');

  test('keeps its limits when it is turned to another kind and back', () => {
    const between = turnedTo(percent, 'between', 'V', '.');
    expect(readDraft(between, 'V', '.')).toEqual({ expects: { kind: 'between', low: 11.4, high: 12.6 } });
    expect(readDraft(turnedTo(between, 'percent', 'V', '.'), 'V', '.')).toEqual({
      expects: { kind: 'percent', nominal: 12, percent: 5 },
    });
    expect(readDraft(turnedTo(between, 'at least', 'V', '.'), 'V', '.')).toEqual({
      expects: { kind: 'at least', limit: 11.4 },
    });
  });

  test('takes a moved limit: a percent band as its percentage, on both sides', () => {
    const moved = readDraft(withLimit(percent, 'high', 12.3, 'V', '.'), 'V', '.');
    expect(moved).toEqual({ expects: { kind: 'percent', nominal: 12, percent: 2.5 } });
    if ('expects' in moved) expect(limitsOf(moved.expects)).toEqual({ low: 11.7, high: 12.3 });
    expect(withLimit(percent, 'high', 11, 'V', '.')).toEqual(percent);
    const one = draftOf({ kind: 'at most', limit: 2 }, 'Ω', ',');
    expect(withLimit(one, 'high', 1.5, 'Ω', ',').high).toBe('1,5\u00a0Ω');
  });

  test('has handles only for limits that it has fields for, or a percentage', () => {
    for (const kind of BAND_KINDS) {
      const fields = FIELDS_OF[kind];
      for (const side of movableSides(kind)) expect(fields.includes(side) || fields.includes('percent')).toBe(true);
    }
  });
});

test('a point that is named after its voltage starts from the board’s marking with its usual tolerance (common practice, no source)', () => {
  const read = (point: string) => readDraft(emptyDraft(point, 'V', '.'), 'V', '.');
  expect(read('12V main')).toEqual({ expects: { kind: 'percent', nominal: 12, percent: 5 } });
  expect(read('backlight 118V')).toEqual({ expects: { kind: 'percent', nominal: 118, percent: 15 } });
  expect(emptyDraft('12V main', 'Ω', '.')).toEqual(BLANK);
});

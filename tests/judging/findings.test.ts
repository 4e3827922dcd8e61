import { describe, expect, test } from 'vitest';
import type { Band } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import { boostFindings, chargeFindings, mainsFor, railFindings } from '../../src/judging/findings.ts';
import { reading } from '../support/readings.ts';

const family: Family = {
  name: 'HERON-48',
  boost: true,
  points: [
    { name: 'bulk', role: 'bulk' },
    { name: '12V main pin 1', role: 'main', rail: '12V main' },
    { name: '12V main pin 2', role: 'main', rail: '12V main' },
  ],
  parts: [],
};
const bulk = (value: number) => reading({ point: 'bulk', value, decimals: 1 });

describe('boostFindings(family, live, mains, mark)', () => {
  // Peak of 230 V mains: √2 · 230 V less two diode drops (common practice, no source) is 323 V.
  test('says that the boost stage is not running where the bulk reads rectified mains, with the computed peak', () => {
    expect(boostFindings(family, [bulk(318.9)], 230, ',')).toEqual([
      'Boost stage not running: bulk reads 318,9\u00a0V, and rectified mains would give up to 323\u00a0V.',
    ]);
  });

  test('says nothing of a boosted bulk, of a family without boost, or where no mains is known', () => {
    expect(boostFindings(family, [bulk(390)], 230, '.')).toEqual([]);
    expect(boostFindings({ ...family, boost: false }, [bulk(318.9)], 230, '.')).toEqual([]);
    expect(boostFindings(family, [bulk(318.9)], undefined, '.')).toEqual([]);
  });
});

describe('railFindings(family, readings, mark)', () => {
  const pin = (number: number, value: number) => ({
    ...reading({ point: `12V main pin ${number}`, value }),
    uncertainty: 0.05,
  });

  test('names the pin that lies lower than the uncertainties allow, even where both are in band', () => {
    expect(railFindings(family, [pin(1, 12.04), pin(2, 11.62)], '.')).toEqual([
      '12V main pin 2 reads 11.62\u00a0V where 12V main pin 1 of the same rail (12V main) reads 12.04\u00a0V: look for a bad joint.',
    ]);
  });

  test('finds pins within their uncertainty in agreement, and needs two pins', () => {
    expect(railFindings(family, [pin(1, 12.04), pin(2, 12.0)], '.')).toEqual([]);
    expect(railFindings(family, [pin(2, 9)], '.')).toEqual([]);
  });

  test('compares the last reading of each pin', () => {
    expect(railFindings(family, [pin(1, 12.04), pin(2, 11.2), pin(2, 12.03)], '.')).toEqual([]);
  });
});

describe('chargeFindings(readings)', () => {
  test('warns once of a point that read below range in ohms', () => {
    const charged = reading({ point: 'C1 +→-', mode: 'resistance', state: 'below-range', value: NaN });
    expect(chargeFindings([charged, charged, reading({})])).toEqual([
      'C1 +→- read below range in ohms: a charge was left on it. Discharge it through a resistor, measure it, then measure again.',
    ]);
  });

  test('says nothing of a voltage below range', () => {
    expect(chargeFindings([reading({ state: 'below-range', value: NaN })])).toEqual([]);
  });
});

describe('mainsFor(measured, bands)', () => {
  const stated: Band = {
    family: 'PLOVER-32',
    point: 'bulk',
    mode: 'DC volts',
    expects: { kind: 'rectified mains', below: 10, above: 3, mains: 230 },
    basis: 'typed in',
  };

  test('takes the measured mains before a stated one, and none where neither is there', () => {
    expect(mainsFor(119, [stated])).toBe(119);
    expect(mainsFor(NaN, [stated])).toBe(230);
    expect(mainsFor(NaN, [])).toBeUndefined();
  });
});

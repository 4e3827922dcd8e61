import { describe, expect, test } from 'vitest';
import { SI_PREFIXES } from '../../src/domain/prefix.ts';
import { STATES } from '../../src/domain/reading.ts';
import type { DecimalMark } from '../../src/domain/quantity.ts';
import { QuantityScanner } from '../../src/intake/quantity-scanner.ts';
import { parseUnit } from '../../src/intake/unit-text.ts';

const scanner = new QuantityScanner();

function scan(cell: string, mark: DecimalMark = '.', prefix = 0) {
  const fault = scanner.scan(cell, mark, prefix);
  if (fault !== undefined) return { fault: fault.wrong };
  const { value, prefix: shown, decimals, unit } = scanner;
  return { state: STATES[scanner.state], value, prefix: shown, decimals, unit };
}

describe('marks of resistors and capacitors', () => {
  // IEC 60062:2016, table of examples of the marking code for resistance and capacitance values; examples from memory.
  test.each([
    ['R10', 0.1, 'Ω'],
    ['R332', 0.332, 'Ω'],
    ['R47', 0.47, 'Ω'],
    ['1R0', 1, 'Ω'],
    ['3R32', 3.32, 'Ω'],
    ['10R', 10, 'Ω'],
    ['59R04', 59.04, 'Ω'],
    ['590R4', 590.4, 'Ω'],
    ['1K0', 1000, 'Ω'],
    ['4K7', 4700, 'Ω'],
    ['5K904', 5904, 'Ω'],
    ['10K', 10_000, 'Ω'],
    ['2M2', 2.2e6, 'Ω'],
    ['10M', 1e7, 'Ω'],
    ['1G0', 1e9, 'Ω'],
    ['1T0', 1e12, 'Ω'],
    ['p10', 0.1e-12, 'F'],
    ['3p32', 3.32e-12, 'F'],
    ['10n', 10e-9, 'F'],
    ['n33', 0.33e-9, 'F'],
    ['3n32', 3.32e-9, 'F'],
    ['µ10', 0.1e-6, 'F'],
    ['4µ7', 4.7e-6, 'F'],
    ['3m32', 3.32e-3, 'F'],
  ])('%s is %d %s', (mark, value, unit) => {
    const read = scan(mark);
    expect(read.value).toBeCloseTo(value, 25);
    expect(Math.abs(read.value! / value - 1)).toBeLessThan(1e-15);
    // A mark that ends in its letter (10K) leaves the unit to the column.
    if (/\d$/.test(mark)) expect(read.unit).toBe(unit);
  });
});

describe('SI prefixes', () => {
  // BIPM, The International System of Units, 9th edition (2019, updated 2022), table 7.
  test.each([...SI_PREFIXES])('%sV is 10^%i V', (symbol, power) => {
    expect(parseUnit(`${symbol}V`)).toEqual({ unit: 'V', prefix: power });
    expect(scan(`1.5 ${symbol}V`).value).toBe(Number(`1.5e${power}`));
  });

  test('letter case tells mega from milli', () => {
    expect(scan('1.5 MΩ').value).toBe(1.5e6);
    expect(scan('1.5 mΩ').value).toBe(1.5e-3);
  });

  test.each(['Pa', 'Hz', '°C', '%', 's', 'cd', 'lm', 'Bq', 'W', 'dB'])('%s is no unit of a meter reading', (unit) => {
    expect(parseUnit(unit)).toBeUndefined();
  });
});

describe('characters that Unicode keeps apart', () => {
  // The Unicode Standard 15.0, 22.2 (letterlike symbols): U+2126 and U+212A are canonically equivalent to Ω and K, U+00B5 only compatibly to μ.
  test('both ohm signs, both micro signs and the kelvin sign mean the same', () => {
    expect(scan('4.7 k\u2126')).toEqual(scan('4.7 k\u03a9'));
    expect(scan('10 \u00b5A')).toEqual(scan('10 \u03bcA'));
    expect(scan('4.7 \u212a\u03a9')).toEqual(scan('4.7 K\u03a9'));
    expect(scan('4\u212a7')).toEqual(scan('4K7'));
  });

  test.each(['-', '\u2212', '\u2013', '\ufe63', '\uff0d'])('%s is a minus sign', (sign) => {
    expect(scan(`${sign}4.98`).value).toBe(-4.98);
  });
});

describe('numbers', () => {
  test.each([
    ['0.640 MΩ', '.', 640_000, 6, 3],
    ['0,640 MΩ', ',', 640_000, 6, 3],
    ['4.980', '.', 4.98, 0, 3],
    ['+1.5E-03', '.', 0.0015, -3, 1],
    ['4.98E+3', '.', 4980, 3, 2],
    ['1 234,5', ',', 1234.5, 0, 1],
    ['1\u00a0234,5', ',', 1234.5, 0, 1],
    ['1\u202f234,5', ',', 1234.5, 0, 1],
    ["1'234.5", '.', 1234.5, 0, 1],
    ['1.234.567', ',', 1_234_567, 0, 0],
    ['300,000,000.40', '.', 300_000_000.4, 0, 2],
    ['.5', '.', 0.5, 0, 1],
    ['01', '.', 1, 0, 0],
    ['00.11', '.', 0.11, 0, 2],
    ['19.098316649999997', '.', 19.098316649999997, 0, 15],
    ['4.7309E-23', '.', 4.7309e-23, -24, 3],
  ] as const)('%s with decimal mark %s is %d', (cell, mark, value, prefix, decimals) => {
    expect(scan(cell, mark)).toMatchObject({ state: 'value', value, prefix, decimals });
  });

  test.each([
    '0x10',
    '0b11',
    '12abc',
    '1e999',
    '33.4386,00',
    '-26,9568',
    '0,640',
    '$4.00',
    '95%',
    '1.2.3',
    '1 2',
    '--1',
    'NaN',
    '1/2',
    '2+3',
  ])('%s is no number with a decimal point', (cell) => {
    expect(scan(cell)).toHaveProperty('fault');
  });

  test('one digit is never read out of another mark', () => {
    expect(scan('1,5')).toHaveProperty('fault');
    expect(scan('1.5', ',')).toHaveProperty('fault');
  });

  test('three digits behind the other mark may be either, and are marked so', () => {
    expect(scan('5.555', ',').value).toBe(5555);
    expect(scanner.loneGroup).toBe(true);
    scan('5.555.000', ',');
    expect(scanner.loneGroup).toBe(false);
  });

  test('minus zero is zero', () => {
    expect(Object.is(scan('-0').value, 0)).toBe(true);
  });
});

describe('the words of meters', () => {
  test.each([
    'OL',
    'ol',
    '0L',
    'O.L',
    '0.L',
    '.OL',
    'OVLD',
    'Overload',
    '1.',
    '----',
    '∞',
    'OL MΩ',
    '0.L kΩ',
    'inf',
    '9.9E37',
    '+9.90000000E+37',
  ])('%s is over-range', (cell) => {
    expect(scan(cell)).toMatchObject({ state: 'over-range', value: NaN });
  });

  test('over-range carries its limit where the meter tells it', () => {
    expect(scan('>40 MΩ')).toMatchObject({ state: 'over-range', value: 40e6, unit: 'Ω' });
    expect(scan('<0.1 Ω')).toMatchObject({ state: 'below-range', value: NaN });
  });

  test('over-range keeps the prefix of its range', () => {
    expect(scan('OL', '.', 6)).toMatchObject({ state: 'over-range', prefix: 6 });
  });

  test.each([
    ['beep', 'beep'],
    ['BEEP', 'beep'],
    ['no beep', 'no beep'],
    ['No-Beep', 'no beep'],
    ['-OL', 'below-range'],
    ['-INF', 'below-range'],
  ])('%s is %s', (cell, state) => {
    expect(scan(cell).state).toBe(state);
  });

  test.each(['', ' ', '-', '--', '.', 'NA', 'N/A', 'NONE', 'NULL', 'null', '*****', '****'])(
    '“%s” is blank, never zero',
    (cell) => {
      expect(scan(cell)).toMatchObject({ state: 'blank', value: NaN });
    },
  );

  // SCPI-1999, volume 1, 7.2.1.5: 9.91E37 stands for no number.
  test.each(['NaN', '9.91E37'])('%s is refused: a meter that had no number gave none', (cell) => {
    expect(scan(cell).fault).toContain('had none');
  });
});

describe('units', () => {
  test.each([
    ['V~', 'V', 'AC volts'],
    ['VAC', 'V', 'AC volts'],
    ['V AC', 'V', 'AC volts'],
    ['mVac', 'V', 'AC volts'],
    ['ACV', 'V', 'AC volts'],
    ['Vdc', 'V', 'DC volts'],
    ['DCmV', 'V', 'DC volts'],
    ['mA', 'A', undefined],
    ['kohm', 'Ω', undefined],
    ['Ohms', 'Ω', undefined],
    ['kilohms', 'Ω', undefined],
    ['uF', 'F', undefined],
    ['microfarads', 'F', undefined],
    ['[kΩ]', 'Ω', undefined],
  ])('%s is in %s, mode %s', (text, unit, mode) => {
    expect(parseUnit(text)).toMatchObject({ unit, ...(mode ? { mode } : {}) });
    expect(parseUnit(text)?.mode).toBe(mode);
  });

  test('an unknown unit is named in the fault', () => {
    expect(scan('12.5 °C').fault).toContain('°C');
  });
});

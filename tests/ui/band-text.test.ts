import { describe, expect, test } from 'vitest';
import type { Expectation } from '../../src/domain/band.ts';
import type { Unit } from '../../src/domain/quantity.ts';
import { expectationText, limitText, limitsText, rangeText } from '../../src/ui/band-text.ts';

/** No-break spaces are as good as spaces to whoever reads these lines. */
function plain(text: string): string {
  return text.replaceAll('\u00a0', ' ');
}

// Space between number and unit, and before %: SI Brochure, 9th edition, 5.4.3 and 5.4.7.
describe('expectationText(expects, unit, mark)', () => {
  test.each<[Expectation, Unit, string]>([
    [{ kind: 'between', low: 0.424, high: 0.636 }, 'V', '0.424 to 0.636 V'],
    [{ kind: 'percent', nominal: 12, percent: 5 }, 'V', '12 V ± 5 %'],
    [{ kind: 'percent', nominal: 390, percent: 2.5 }, 'V', '390 V ± 2.5 %'],
    [{ kind: 'at least', limit: 20_000 }, 'Ω', 'at least 20 kΩ'],
    [{ kind: 'at most', limit: 0.3 }, 'Ω', 'at most 0.3 Ω'],
    [{ kind: 'at most', limit: 0.3 }, 'V', 'at most 300 mV'],
    [{ kind: 'open', limit: 1e6 }, 'Ω', 'open, or at least 1 MΩ'],
    [{ kind: 'shorted', limit: 2 }, 'Ω', 'a beep, or at most 2 Ω'],
    [{ kind: 'rectified mains', below: 8, above: 3 }, 'V', 'the peak of the mains, from 8 % below to 3 % above'],
    [
      { kind: 'rectified mains', below: 8, above: 3, mains: 230 },
      'V',
      'the peak of the mains, from 8 % below to 3 % above; 230 V where none was measured',
    ],
  ])('says %j in words', (expects, unit, text) => {
    expect(plain(expectationText(expects, unit, '.'))).toBe(text);
  });

  test('writes with the decimal comma', () => {
    expect(plain(expectationText({ kind: 'percent', nominal: 3.3, percent: 2.5 }, 'V', ','))).toBe('3,3 V ± 2,5 %');
  });
});

describe('limitsText(expects, unit, mark)', () => {
  test('says what a percent band comes to', () => {
    expect(plain(limitsText({ kind: 'percent', nominal: 12, percent: 5 }, 'V', '.'))).toBe('11.4 to 12.6 V');
  });

  test('is empty where the words have said it, or where it waits for a reading of the mains', () => {
    expect(limitsText({ kind: 'between', low: 1, high: 2 }, 'V', '.')).toBe('');
    expect(limitsText({ kind: 'rectified mains', below: 8, above: 3 }, 'V', '.')).toBe('');
  });

  test('says what rectified mains come to where the mains are stated', () => {
    // √2 · 230 V − 2 V = 323.27 V; 230 V is nominal by IEC 60038.
    expect(plain(limitsText({ kind: 'rectified mains', below: 0, above: 0, mains: 230 }, 'V', '.'))).toBe(
      '323.269 to 323.269 V',
    );
  });
});

test('rangeText(limits, unit, mark) writes both ends with the prefix of the larger and as many digits', () => {
  expect(plain(rangeText({ low: 800, high: 1200 }, 'Ω', '.'))).toBe('0.8 to 1.2 kΩ');
  expect(plain(rangeText({ low: 11, high: 12.5 }, 'V', '.'))).toBe('11.0 to 12.5 V');
  expect(plain(rangeText({ low: 0.3, high: 1.2 }, 'V', '.'))).toBe('0.3 to 1.2 V');
  expect(plain(rangeText({ low: -12.6, high: -11.4 }, 'V', '.'))).toBe('\u221212.6 to \u221211.4 V');
});

test('limitText(value, unit, mark) adds no digit that a limit does not have', () => {
  expect(plain(limitText(0.1 + 0.2, 'V', '.'))).toBe('300 mV');
  expect(plain(limitText(0.1 + 0.2, 'Ω', '.'))).toBe('0.3 Ω');
  expect(plain(limitText(0.07, 'V', '.'))).toBe('70 mV');
  expect(plain(limitText(0.9, 'A', '.'))).toBe('900 mA');
  expect(plain(limitText(1234567, 'Ω', '.'))).toBe('1.23457 MΩ');
  expect(plain(limitText(0, 'Ω', '.'))).toBe('0 Ω');
});

import { describe, expect, test } from 'vitest';
import {
  changedSettings,
  settingsChanges,
  settingsFault,
  type BenchSettings,
} from '../../src/domain/bench-settings.ts';

const price = { family: 'HERON-48', part: 'Q1', price: 1.2 };
const settings: BenchSettings = { prices: [price], fee: 45, technician: 'A. Tern' };

describe('settings', () => {
  test('that are not named stay as they are', () => {
    expect(changedSettings(settings, { fee: 50 })).toEqual({ ...settings, fee: 50 });
    expect(changedSettings(settings, { technician: undefined })).toEqual({ prices: [price], fee: 45 });
  });

  test('change one price alone', () => {
    const other = { ...price, part: 'Q2', price: 2 };
    expect(changedSettings(settings, { prices: [other] }).prices).toEqual([price, other]);
    expect(changedSettings(settings, { prices: [{ ...price, price: undefined }] }).prices).toEqual([]);
  });

  test.each<[string, BenchSettings]>([
    ['a fee', { ...settings, fee: 50 }],
    ['a fee that is gone', { prices: [price], technician: 'A. Tern' }],
    ['a price that is gone and another that came', { ...settings, prices: [{ ...price, part: 'F1' }] }],
    ['a rule', { ...settings, goodRule: { heldDays: 30, withoutFault: false, newParts: true } }],
    ['nothing', settings],
  ])('are told apart by what leads from one to the other: %s', (_, after) => {
    expect(changedSettings(settings, settingsChanges(settings, after))).toEqual(after);
  });

  test('with two prices of one part cannot be used', () => {
    expect(settingsFault({ prices: [price, { ...price, price: 2 }] })).toContain('two prices');
  });
});

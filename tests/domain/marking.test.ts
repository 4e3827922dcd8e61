import { expect, test } from 'vitest';
import { markedVolts, usualPercent } from '../../src/domain/marking.ts';

test('a point’s name tells the voltage that is marked on the board', () => {
  expect(['12V main', '5 V standby', 'rail 3.3V', '13V', 'Q1 D→S', 'bulk', 'U2VCC', '24VA'].map(markedVolts)).toEqual([
    12,
    5,
    3.3,
    13,
    undefined,
    undefined,
    undefined,
    undefined,
  ]);
});

// Common practice, no source: ±5 % on supplies, ±15 % on a backlight output.
test('a supply may lie 5 % off, a backlight output 15 %', () => {
  expect(['12V main', '5V standby', 'bulk', 'backlight 1'].map(usualPercent)).toEqual([5, 5, 5, 15]);
});

import { expect, test } from 'vitest';
import { plainColour } from '../../src/ui/charts/save-svg.ts';

// CSS Color Module Level 4 (W3C), 15.2: the computed value of a mix in sRGB is a color() function of shares from 0 to 1.
test('a mixed colour is saved in the form that every program for drawings reads', () => {
  expect(plainColour('color(srgb 1 0.5 0)')).toBe('rgb(255, 128, 0)');
  expect(plainColour('color(srgb 4.5e-2 0 1)')).toBe('rgb(11, 0, 255)');
});

test('what is no mixed colour is saved as it is', () => {
  for (const value of ['rgb(0, 114, 178)', 'none', '12px', 'color(display-p3 1 0 0)'])
    expect(plainColour(value)).toBe(value);
});

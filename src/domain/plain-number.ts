import { scaleBy, type Shown } from './quantity.ts';

/**
 * Writes `value` (in the SI unit) without its prefix, with a decimal point and a hyphen-minus, so that any program reads it: with the digits that
 * the meter showed, or, where these would read back as another number, with the fewest that do not.
 */
export function plainNumber(value: number, { prefix, decimals }: Shown): string {
  const magnitude = Math.abs(value);
  const shown = scaleBy(magnitude, -prefix).toFixed(Math.min(decimals, 100));
  const isExact = !shown.includes('e') && Number(`${shown}e${prefix}`) === magnitude;
  return (value < 0 ? '-' : '') + (isExact ? shown : shifted(magnitude, -prefix));
}

/** `value · 10^power` with the shortest digits that name `value`, all written out. */
function shifted(value: number, power: number): string {
  const [mantissa = '', exponent] = value.toExponential().split('e');
  const digits = mantissa.replace('.', '');
  const whole = 1 + Number(exponent) + power;
  if (whole <= 0) return `0.${'0'.repeat(-whole)}${digits}`;
  if (whole >= digits.length) return digits.padEnd(whole, '0');
  return `${digits.slice(0, whole)}.${digits.slice(whole)}`;
}

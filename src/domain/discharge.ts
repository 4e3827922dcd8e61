/** Up to this a d.c. voltage may be touched: energy source class 1 in IEC 62368-1, table 4. Volts. */
export const TOUCH_LIMIT = 60;

/**
 * Seconds until a capacitor that discharges through a resistor has fallen from `start` to `end` volts: R·C·ln(start / end), the natural discharge
 * V(t) = V₀·e^(−t/RC). No time where it is there already; `Infinity` without a path or towards zero volts.
 * @param farads - capacitance, above 0
 * @param ohms - what discharges it, above 0; `Infinity` where nothing does
 * @throws RangeError where a value is negative, zero capacitance or resistance, or no number
 */
export function dischargeTime(farads: number, ohms: number, start: number, end: number = TOUCH_LIMIT): number {
  if (!(farads > 0) || !(ohms > 0) || !(start >= 0) || !(end >= 0)) {
    throw new RangeError('A discharge needs a capacitance and a resistance above zero, and voltages from zero up.');
  }
  if (start <= end) return 0;
  return ohms * farads * Math.log(start / end);
}

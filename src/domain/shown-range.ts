/**
 * The magnitudes that a reading other than zero can have, in its SI unit. Meters resolve down to tenths of a picofarad and reach up to teraohms
 * (common practice, no source); some decades are left on either side. What lies beyond was mistyped or computed, and would spoil every sum it enters.
 */
export const SHOWN_RANGE = { least: 1e-15, most: 1e15 } as const;

/** Whether a meter can have shown a number, in the SI unit: `too small`, `too large`, or undefined where it can. */
export function shownRangeFault(value: number): 'too small' | 'too large' | undefined {
  const magnitude = Math.abs(value);
  if (magnitude > SHOWN_RANGE.most) return 'too large';
  return magnitude > 0 && magnitude < SHOWN_RANGE.least ? 'too small' : undefined;
}

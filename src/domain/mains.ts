/** Two diodes of the bridge carry the current in turn; together they drop about this much (common practice, no source). Volts. */
export const BRIDGE_DROP = 2;

/** Peak of a sine in volts from its r.m.s. value in volts: √2 · r.m.s. */
export function peakOfSine(rms: number): number {
  return Math.SQRT2 * rms;
}

/** The voltage to which a bridge rectifier charges a bulk capacitor without load: the peak less two diode drops. Volts from volts r.m.s. */
export function rectifiedPeak(rms: number): number {
  return peakOfSine(rms) - BRIDGE_DROP;
}

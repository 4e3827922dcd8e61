import { roleOf } from './family.ts';

/** The voltage that a point is named after, as boards print it: `12V main`, `5 V standby`, `3.3V`; undefined for none. */
export function markedVolts(point: string): number | undefined {
  const found = /(?:^|[\s_(+])(\d{1,3}(?:[.,]\d{1,2})?)\s?V(?![\p{L}\p{N}])/u.exec(point)?.[1];
  const volts = found === undefined ? 0 : Number(found.replace(',', '.'));
  return volts > 0 ? volts : undefined;
}

/** How far a supply may lie from its nominal voltage, in percent: 15 for a backlight output, 5 for any other (common practice, no source). */
export function usualPercent(point: string): number {
  return roleOf(point) === 'backlight' ? 15 : 5;
}

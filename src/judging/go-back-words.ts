import { listText } from '../domain/list-text.ts';
import { formatShown, joinQuantity, type DecimalMark } from '../domain/quantity.ts';
import { MODE_UNITS } from '../domain/reading.ts';
import type { JudgedReading } from './go-back.ts';

/** What readings said, as `Q1 D→S read 0.6 Ω and D3 A→K read over range`. */
export function said(readings: readonly JudgedReading[], mark: DecimalMark): string {
  return listText(
    readings.map((reading) => {
      const { point, state, value, mode, word } = reading;
      const answer = state === 'value' ? joinQuantity(formatShown(value, MODE_UNITS[mode], reading, mark)) : state;
      return `${point} read ${answer}${word === undefined ? '' : ` (${word})`}`;
    }),
  );
}

export function pointsOf(readings: readonly JudgedReading[]): string {
  return listText([...new Set(readings.map(({ point }) => point))]);
}

export function were(items: readonly unknown[]): string {
  return items.length === 1 ? 'was' : 'were';
}

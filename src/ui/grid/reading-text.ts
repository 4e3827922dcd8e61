import { formatShown, type DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS, type Reading } from '../../domain/reading.ts';

/** A reading in three parts, so that a column of readings aligns on the decimal mark. */
export interface ReadingText {
  /** Everything before the decimal mark, or the word for an answer that is no number. */
  readonly whole: string;
  /** The decimal mark and what follows it; empty for whole numbers and for words. */
  readonly fraction: string;
  readonly unit: string;
}

/** What a meter's answer reads, with the digits and the prefix that it showed. */
export function readingText(reading: Reading, mark: DecimalMark): ReadingText {
  const unit = MODE_UNITS[reading.mode];
  switch (reading.state) {
    case 'value': {
      const shown = formatShown(reading.value, unit, reading, mark);
      const at = shown.number.indexOf(mark);
      if (at < 0) return { whole: shown.number, fraction: '', unit: shown.unit };
      return { whole: shown.number.slice(0, at), fraction: shown.number.slice(at), unit: shown.unit };
    }
    case 'over-range':
      return { whole: 'OL', fraction: '', unit };
    case 'below-range':
      return { whole: 'below range', fraction: '', unit: '' };
    case 'beep':
    case 'no beep':
    case 'blank':
      return { whole: reading.state, fraction: '', unit: '' };
  }
}

/** The same in one piece, such as `25.27 V`, with a no-break space before the unit. */
export function readingLine(reading: Reading, mark: DecimalMark): string {
  const { whole, fraction, unit } = readingText(reading, mark);
  return `${whole}${fraction}${unit === '' ? '' : `\u00a0${unit}`}`;
}

import type { DecimalMark } from '../../domain/quantity.ts';
import type { GoBackEntry, PartComparison } from './repair-answers.ts';

/** How a line stands on the page: a sign that differs in shape, and a word. */
export interface StandingText {
  readonly sign: string;
  readonly word: string;
  readonly wrong: boolean;
}

/** The sign and word of a line that must hold; an overruled one says so unless it holds by itself. */
export function standingText({ standing, overruled }: GoBackEntry): StandingText {
  switch (standing) {
    case 'holds':
      return { sign: '✓', word: standing, wrong: false };
    case 'does not apply':
      return { sign: '–', word: standing, wrong: false };
    case 'does not hold':
    case 'not measured':
      if (overruled !== undefined) return { sign: '◇', word: `${standing}, overruled`, wrong: false };
      return { sign: standing === 'not measured' ? '·' : '✗', word: standing, wrong: true };
  }
}

/** Whether the board may go back, as one sentence over its lines. */
export function goBackSentence(entries: readonly GoBackEntry[], mayGoBack: boolean): string {
  const open = entries.filter(({ standing, overruled }) => overruled === undefined && standing !== 'holds');
  const bad = open.filter(({ standing }) => standing === 'does not hold').length;
  const missing = open.filter(({ standing }) => standing === 'not measured').length;
  const passed = entries.filter((entry) => standingText(entry).sign === '◇').length;
  if (mayGoBack) {
    return passed === 0
      ? 'As far as its readings tell, it may go back.'
      : `As far as its readings tell, it may go back, with ${passed === 1 ? 'one line' : `${passed} lines`} overruled.`;
  }
  const faults = [
    ...(bad === 0 ? [] : [`${bad} ${bad === 1 ? 'line does' : 'lines do'} not hold`]),
    ...(missing === 0 ? [] : [`${missing} ${missing === 1 ? 'was' : 'were'} not measured`]),
  ];
  return `Not yet: ${faults.join(', ')}.`;
}

/** Below or above these a ratio is written with a power of ten. */
const SMALL = 0.001;
const LARGE = 1000;

/** A ratio with no more digits than were measured: `0.94`, `2.7 × 10⁻⁶`; empty where there is none. */
export function ratioText(ratio: PartComparison['ratio'], mark: DecimalMark): string {
  if (ratio === undefined) return '';
  const { value } = ratio;
  const digits = Math.min(21, Math.max(1, ratio.digits));
  const size = Math.abs(value);
  const [mantissa = '', power = '0'] = value.toExponential(digits - 1).split('e');
  const exponent = Number(power);
  const plain = size >= SMALL && size < LARGE && exponent < digits;
  const text = plain ? value.toFixed(digits - 1 - exponent) : `${mantissa}\u00a0×\u00a010${superscript(exponent)}`;
  return (mark === ',' ? text.replace('.', ',') : text).replace('-', '\u2212');
}

function superscript(power: number): string {
  return String(power).replaceAll(/[-\d]/g, (sign) => (sign === '-' ? '⁻' : '⁰¹²³⁴⁵⁶⁷⁸⁹'.charAt(Number(sign))));
}

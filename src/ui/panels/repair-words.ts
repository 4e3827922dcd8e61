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
    case 'no band':
      if (overruled !== undefined) return { sign: '◇', word: `${standing}, overruled`, wrong: false };
      return { sign: standing === 'does not hold' ? '✗' : '·', word: standing, wrong: true };
  }
}

/** Whether the board may go back, as one sentence over its lines. */
export function goBackSentence(entries: readonly GoBackEntry[], mayGoBack: boolean): string {
  const passed = entries.filter((entry) => standingText(entry).sign === '◇').length;
  if (mayGoBack) {
    return passed === 0
      ? 'As far as its readings tell, it may go back.'
      : `As far as its readings tell, it may go back, with ${passed === 1 ? 'one line' : `${passed} lines`} overruled.`;
  }
  const open = openLines(entries);
  const count = (standing: GoBackEntry['standing'], one: string, many: string): readonly string[] => {
    const found = open.filter((entry) => entry.standing === standing).length;
    return found === 0 ? [] : [`${found} ${found === 1 ? one : many}`];
  };
  const faults = [
    ...count('does not hold', 'line does not hold', 'lines do not hold'),
    ...count('not measured', 'was not measured', 'were not measured'),
    ...count('no band', 'lacks a band', 'lack a band'),
  ];
  return `Not yet: ${faults.join(', ')}.`;
}

/** The one thing that a board lacks before it may go back, the worst first, in a few words; empty where it may. */
export function goBackLack(entries: readonly GoBackEntry[]): string {
  const open = openLines(entries);
  const [first] = [...open].sort((one, other) => URGENCY.indexOf(one.standing) - URGENCY.indexOf(other.standing));
  if (first === undefined) return '';
  const more = open.length === 1 ? '' : `, ${open.length - 1} more`;
  return `${LACKS[first.standing]?.[first.rule] ?? first.standing}${more}`;
}

type Rule = GoBackEntry['rule'];

/** What a line wants, in the few words that a list has room for. */
const LACKS: Readonly<Partial<Record<GoBackEntry['standing'], Readonly<Record<Rule, string>>>>> = {
  'does not hold': {
    shorts: 'a short is left',
    fuse: 'the fuse is blown',
    live: 'a live point is out of band',
    'run-in': 'the run-in leaves its band',
    discharge: 'not discharged before work',
    meters: 'a meter was off or overdue',
  },
  'not measured': {
    shorts: 'not read again once fitted',
    fuse: 'fuse not measured',
    live: 'live points not measured',
    'run-in': 'run-in without an answer',
    discharge: 'discharge not measured',
    meters: 'no meter is named',
  },
  'no band': {
    shorts: 'a refitted part has no band',
    fuse: 'the fuse has no band',
    live: 'live points without a band',
    'run-in': 'run-in without a band',
    discharge: 'bulk without a band',
    meters: 'without a band',
  },
};

/** The lines that want something before the board may go back. */
function openLines(entries: readonly GoBackEntry[]): readonly GoBackEntry[] {
  return entries.filter(({ standing, overruled }) => overruled === undefined && URGENCY.includes(standing));
}

const URGENCY: readonly GoBackEntry['standing'][] = ['does not hold', 'not measured', 'no band'];

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

import type { State } from '../domain/reading.ts';

const LONGEST = 16;

/** What meters and people write where a number has no place; compared in lower case, without blanks around. */
const WORDS: ReadonlyMap<string, State> = new Map([
  ...['ol', 'o.l', 'o.l.', '.ol', 'ol.', '0l', '0.l', '.0l', '0l.', 'ovld', 'ovl', 'ov.ld', 'overload', '1.', '1 .', '∞'].map(
    (word): [string, State] => [word, 'over-range'],
  ),
  ...['over', 'over range', 'over-range', 'overrange', 'overflow', 'oflow', 'inf', '+inf', 'infinity', '+ol', '+ovld', 'ofl', 'out of range', 'open'].map(
    (word): [string, State] => [word, 'over-range'],
  ),
  ...['-ol', '−ol', '-o.l', '-0l', '-ovld', '-inf', '-infinity', '-∞', '−∞', 'under range', 'under-range'].map(
    (word): [string, State] => [word, 'below-range'],
  ),
  ...['underrange', 'below range', 'below-range', 'underflow', 'ur'].map((word): [string, State] => [word, 'below-range']),
  ...['beep', 'beeps', 'beeped', 'buzz', 'tone'].map((word): [string, State] => [word, 'beep']),
  ...['no beep', 'nobeep', 'no-beep', 'no_beep', 'no tone', 'silent'].map((word): [string, State] => [word, 'no beep']),
  ...['', '-', '--', '–', '—', '.', 'na', 'n/a', 'n.a.', '#n/a', 'none', 'null', 'nil', 'blank'].map(
    (word): [string, State] => [word, 'blank'],
  ),
]); // prettier-ignore

/** The state that a word stands for, undefined where it is none of a meter's words. `----` is over-range, `***` blank. */
export function stateOfWord(text: string): State | undefined {
  const word = text.trim();
  if (word.length > LONGEST) return undefined;
  const known = WORDS.get(word.toLowerCase());
  if (known) return known;
  if (/^-{3,}$/.test(word)) return 'over-range';
  return /^\*+$/.test(word) ? 'blank' : undefined;
}

/** A word that starts a text and goes on with a unit (`OL MΩ`, `O.L kΩ`): the word and where it ends. */
export function leadingOverRange(text: string): number | undefined {
  return /^(?:o\.?l\.?|\.ol|0\.?l|ovld|overload|∞|-{3,})(?=[\s\u00a0\u202f]|[kKMGmµuΩ\u2126\u212a])/i.exec(text)?.[0]
    .length;
}

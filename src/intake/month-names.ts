/** What a word names: a month from 1 to 12, several in different languages, or none. */
export type MonthOfWord = number | 'several' | undefined;

const LETTERS = 'abcdefghijklmnopqrstuvwxyz';
const ENGLISH = new Map<string, number>();
let everyLanguage: ReadonlyMap<string, number | 'several'> | undefined;

/**
 * The month that a word names in some language, by its long or short name, alone or as a date declines it. English goes first, and a word that
 * means different months in different languages (Croatian and Polish *listopad*) is said to be one.
 *
 * Source of the names: Unicode CLDR, as `Intl.DateTimeFormat` gives them; letter case, accents and points are folded.
 */
export function monthOfWord(word: string): MonthOfWord {
  if (ENGLISH.size === 0) {
    addNames('en', (name, month) => ENGLISH.set(name, month));
    // A usual fourth letter that CLDR gives for British English alone.
    addNames('en-GB', (name, month) => ENGLISH.set(name, month));
  }
  const name = folded(word);
  const english = ENGLISH.get(name);
  if (english !== undefined) return english;
  everyLanguage ??= namesOf(languages());
  return everyLanguage.get(name);
}

/** Languages of two letters whose names of months the platform knows. */
function languages(): readonly string[] {
  const codes = Array.from(LETTERS).flatMap((first) => Array.from(LETTERS, (second) => first + second));
  return Intl.DateTimeFormat.supportedLocalesOf(codes);
}

function namesOf(all: readonly string[]): ReadonlyMap<string, number | 'several'> {
  const names = new Map<string, number | 'several'>();
  for (const language of all) {
    addNames(language, (name, month) => {
      const other = names.get(name) ?? month;
      names.set(name, other === month ? month : 'several');
    });
  }
  return names;
}

function addNames(language: string, add: (name: string, month: number) => void): void {
  for (const month of ['long', 'short'] as const) {
    for (const rest of [{}, { day: 'numeric' }] as const) {
      const format = new Intl.DateTimeFormat(language, {
        ...rest,
        month,
        calendar: 'gregory',
        numberingSystem: 'latn',
        timeZone: 'UTC',
      });
      for (let number = 1; number <= 12; number += 1) {
        const parts = format.formatToParts(Date.UTC(2026, number - 1, 1));
        const name = folded(parts.find(({ type }) => type === 'month')?.value ?? '');
        if (name !== '' && !/\d/.test(name)) add(name, number);
      }
    }
  }
}

function folded(word: string): string {
  return word
    .normalize('NFD')
    .replaceAll(/[\p{M}.]/gu, '')
    .toLowerCase();
}

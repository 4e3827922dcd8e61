/** Characters that are looked at. */
const LOOKED_AT = 65_536;
const LONGEST = 24;

/**
 * A word that windows-1252 hardly spells: three accented letters in a row, as the bytes of Greek or Cyrillic make them,
 * or a byte that stands for no character.
 */
export function oddWord(text: string): string | undefined {
  const found = text.slice(0, LOOKED_AT).search(/[\u00c0-\u00ff]{3}|[\u0081\u008d\u008f\u0090\u009d]/);
  if (found < 0) return undefined;
  return /^[\u00a1-\u00ff\w]+/.exec(text.slice(found, found + LONGEST))?.[0] ?? text.slice(found, found + 1);
}

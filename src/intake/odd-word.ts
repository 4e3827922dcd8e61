/** Characters that are looked at. */
const LOOKED_AT = 65_536;

/**
 * What windows-1252 hardly spells: three accented letters or four characters beyond ASCII in a row, as the bytes of Greek, Cyrillic,
 * Chinese or Korean make them; signs with which the bytes of Japanese begin; a byte that stands for no character.
 */
const ODD =
  /[\u00c0-\u00ff]{3}|[\u00a1-\u00ff]{4}|[\u201a\u0192].[\u201a\u0192]|\u02c6(?=[!-\uffff])|[\u0081\u008d\u008f\u0090\u009d]/;

/** A word that windows-1252 hardly spells, from where it turns odd. */
export function oddWord(text: string): string | undefined {
  const found = text.slice(0, LOOKED_AT).search(ODD);
  return found < 0 ? undefined : /^[^\s,;|"]{1,24}/.exec(text.slice(found))?.[0];
}

/**
 * What a spreadsheet program may take for a formula, also behind blanks. What begins like one behind apostrophes counts too, so that taking one
 * apostrophe off gives back exactly what was guarded. Source of the first characters: OWASP, CSV Injection; ASVS 1.2.10 adds NUL.
 */
const FORMULA_START = /^'*\s*[=+\-@\t\r\n\0＝＋－＠]/;
/** A plain number is none, whatever its sign. */
const NUMBER = /^[+-]?\d+(?:[.,]\d+)?$/;

/** A cell's text with an apostrophe before it where a spreadsheet program would take it for a formula. */
export function guardFormula(text: string): string {
  return FORMULA_START.test(text) && !NUMBER.test(text) ? `'${text}` : text;
}

/** What {@link guardFormula} was given, from what it gave. */
export function unguardFormula(text: string): string {
  const rest = text.slice(1);
  return text.startsWith("'") && guardFormula(rest) !== rest ? rest : text;
}

/** Stands behind the header of a column whose cells are guarded, so that bringing them in takes off what was put there, and nothing else. */
export const GUARD_NOTE = " (' before formulas)";

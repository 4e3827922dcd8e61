import { GUARD_NOTE, unguardFormula } from '../domain/formula-guard.ts';
import { MAX_NAME } from './caps.ts';
import { detached } from './detached.ts';

/** A name as it is kept and compared: canonical composition, no blanks or zero-width marks around. Digits and case stay as they are. */
export function cleanName(text: string): string {
  const plain = text.length > 4 * MAX_NAME ? text.slice(0, 4 * MAX_NAME) : text;
  let from = 0;
  let to = plain.length;
  while (from < to && isBlank(plain.charCodeAt(from))) from += 1;
  while (to > from && isBlank(plain.charCodeAt(to - 1))) to -= 1;
  return detached(plain.slice(from, to).normalize('NFC'));
}

/** The name in a cell under `header`, which may note that its cells are guarded against being taken for formulas. */
export function nameUnder(header: string, cell: string): string {
  return cleanName(header.endsWith(GUARD_NOTE) ? unguardFormula(cell) : cell);
}

/** Unicode blanks, line ends and marks without width. */
function isBlank(code: number): boolean {
  if (code < 0x80) return code <= 0x20;
  return (
    code === 0x85 ||
    code === 0xa0 ||
    code === 0x1680 ||
    (code >= 0x2000 && code <= 0x200f) ||
    code === 0x2028 ||
    code === 0x2029 ||
    code === 0x202f ||
    code === 0x205f ||
    code === 0x2060 ||
    code === 0x3000 ||
    code === 0xfeff
  );
}

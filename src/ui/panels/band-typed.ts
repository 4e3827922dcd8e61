import { engineeringPrefix, prefixSymbol } from '../../domain/prefix.ts';
import { scaleBy, type DecimalMark, type Unit } from '../../domain/quantity.ts';

/** A number as somebody typed it, or what is wrong with the text, as a sentence. */
export type Typed = { readonly value: number } | { readonly fault: string };

/** The prefixes that a bench types; letter case counts, except in kilo. */
const PREFIXES: ReadonlyMap<string, number> = new Map([
  ['', 0], ['p', -12], ['n', -9], ['u', -6], ['µ', -6], ['μ', -6], ['m', -3], ['k', 3], ['K', 3], ['M', 6], ['Meg', 6], ['meg', 6], ['G', 9],
]); // prettier-ignore

const UNIT_WORDS: ReadonlyMap<string, Unit> = new Map([
  ['v', 'V'], ['volt', 'V'], ['volts', 'V'], ['Ω', 'Ω'], ['ω', 'Ω'], ['ohm', 'Ω'], ['ohms', 'Ω'], ['r', 'Ω'], ['f', 'F'], ['a', 'A'],
]); // prettier-ignore

const NUMBER = /^([+\-\u2212]?)(\d+(?:[.,]\d+)?|\d*[.,]\d+)(?:[eE]([+-]?\d{1,2}))?\s*(\D*)$/u;
/** A prefix or R in place of the decimal mark, as resistors are marked: `4k7`. */
const MARKED = /^(\d+)(R|k|K|M)(\d+)\s*(?:Ω|ohms?)?$/u;

/**
 * Reads a typed quantity: `12.7`, `12,7`, `640k`, `1M`, `4k7`, `470 mV`. Either decimal mark will do; a prefix and the unit may follow.
 * @param unit - what the quantity is measured in; a bare number is in it
 */
export function readQuantity(text: string, unit: Unit, mark: DecimalMark): Typed {
  const typed = text.trim().replaceAll('\u2126', 'Ω');
  const marked = unit === 'Ω' ? MARKED.exec(typed) : null;
  if (marked) {
    const [, whole = '', letter = '', part = ''] = marked;
    return { value: scaled(`${whole}.${part}`, PREFIXES.get(letter) ?? 0) };
  }
  const match = NUMBER.exec(typed);
  if (match === null) return { fault: `“${typed}” is no number: write it as ${example(unit, mark)}.` };
  const [, sign = '', digits = '', exponent = '0', tail = ''] = match;
  const group = groupFault(digits, mark);
  if (group !== undefined) return { fault: group };
  const use = unitUse(tail.trim());
  if (use === undefined) return { fault: `“${tail.trim()}” is no unit that is known here: write ${unit}, with or without a prefix.` }; // prettier-ignore
  if (use.unit !== undefined && use.unit !== unit) return { fault: `“${typed}” is in ${use.unit}, and this is measured in ${unit}.` }; // prettier-ignore
  const value = scaled(digits.replace(',', '.'), use.prefix + Number(exponent));
  return { value: sign === '' || sign === '+' ? value : 0 - value };
}

/** Reads a typed percentage: `5`, `2,5 %`, `±5`. */
export function readPercent(text: string, mark: DecimalMark): Typed {
  const typed = text.trim().replace(/\s*%$/, '').replace(/^±\s*/, '');
  const match = /^([+\-\u2212]?)(\d+(?:[.,]\d+)?|[.,]\d+)$/u.exec(typed);
  const [, sign = '', digits = ''] = match ?? [];
  if (match === null) return { fault: `“${text.trim()}” is no percentage: write it as ${mark === ',' ? '2,5' : '2.5'}.` }; // prettier-ignore
  const value = Number(digits.replace(',', '.'));
  return { value: sign === '' || sign === '+' ? value : 0 - value };
}

/** Writes a number for a field, with all its digits: what is written is read back as the same number. */
export function quantityField(value: number, unit: Unit, mark: DecimalMark): string {
  const best = engineeringPrefix(value);
  const prefix = PREFIXES.has(prefixSymbol(best)) ? best : 0;
  const number = String(Number(scaleBy(value, -prefix).toPrecision(12)));
  return `${withMark(number, mark)}\u00a0${prefixSymbol(prefix)}${unit}`;
}

/** Writes a plain number, such as a percentage, for a field. */
export function numberField(value: number, mark: DecimalMark): string {
  return withMark(String(Number(value.toPrecision(12))), mark);
}

function withMark(number: string, mark: DecimalMark): string {
  return mark === ',' ? number.replace('.', ',') : number;
}

/** `digits · 10^power` by one rounding, as the number would be read if it were written out. */
function scaled(digits: string, power: number): number {
  return Number(`${digits}e${power}`);
}

/** `1,234` where the decimal mark is the point may be meant as 1234: it is asked for, not guessed. */
function groupFault(digits: string, mark: DecimalMark): string | undefined {
  const other = mark === '.' ? ',' : '.';
  const [whole = '', part = ''] = digits.split(other);
  if (!digits.includes(other) || part.length !== 3 || whole === '' || whole.startsWith('0')) return undefined;
  return `“${digits}” may be ${whole}${mark}${part} or ${whole}${part}: write the one that is meant.`;
}

function unitUse(text: string): { readonly prefix: number; readonly unit?: Unit } | undefined {
  const bare = PREFIXES.get(text);
  if (bare !== undefined) return { prefix: bare };
  for (const [symbol, prefix] of PREFIXES) {
    if (!text.startsWith(symbol)) continue;
    const unit = UNIT_WORDS.get(text.slice(symbol.length).trim().toLowerCase());
    if (unit !== undefined) return { prefix, unit };
  }
  return undefined;
}

function example(unit: Unit, mark: DecimalMark): string {
  return unit === 'Ω' ? '640k or 4k7' : `12${mark}7 ${unit}`;
}

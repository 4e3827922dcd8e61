import { SI_PREFIXES } from '../domain/prefix.ts';
import type { Unit } from '../domain/quantity.ts';
import type { Mode } from '../domain/reading.ts';

/** What a unit's text says: the SI unit where named, the power of ten of its prefix, and the mode where it gives it away (`V~`). */
export interface UnitUse {
  readonly unit?: Unit;
  readonly prefix: number;
  readonly mode?: Mode;
}

const LONGEST = 24;

const UNIT_NAMES: ReadonlyMap<string, Unit> = new Map([
  ['v', 'V'],
  ['volt', 'V'],
  ['volts', 'V'],
  ['Ω', 'Ω'],
  ['ω', 'Ω'],
  ['ohm', 'Ω'],
  ['ohms', 'Ω'],
  ['r', 'Ω'],
  ['f', 'F'],
  ['farad', 'F'],
  ['farads', 'F'],
  ['a', 'A'],
  ['amp', 'A'],
  ['amps', 'A'],
  ['ampere', 'A'],
  ['amperes', 'A'],
]);

/** What stands on the marks of old capacitors and in logs of capitals alone (common practice, no source); in these no other prefix can be meant. */
const OLD_FARADS: ReadonlyMap<string, UnitUse> = new Map([
  ['mfd', { unit: 'F', prefix: -6 }],
  ['ufd', { unit: 'F', prefix: -6 }],
  ['uf', { unit: 'F', prefix: -6 }],
  ['nf', { unit: 'F', prefix: -9 }],
  ['pf', { unit: 'F', prefix: -12 }],
]);

/** Units in Cyrillic letters: GOST 8.417 (from memory), by the letters of their prefixes. */
const CYRILLIC = /^(Г|М|к|м|мк|н|п)?(Ом|В|Ф|А)$/;
const CYRILLIC_UNITS: Readonly<Record<string, Unit>> = { Ом: 'Ω', В: 'V', Ф: 'F', А: 'A' };
const CYRILLIC_PREFIXES: Readonly<Record<string, number>> = { Г: 9, М: 6, к: 3, м: -3, мк: -6, н: -9, п: -12 };

/** Symbols that may follow a prefix; letter case counts, or `Pa` would be an ampere. */
const PREFIXED_SYMBOLS: ReadonlySet<string> = new Set(['V', 'v', 'Ω', 'ω', 'R', 'F', 'f', 'A']);

/** Prefix names of the SI Brochure (table 7) that stand before a unit written in full. */
const PREFIX_NAMES: ReadonlyMap<string, number> = new Map([
  ['giga', 9],
  ['mega', 6],
  ['meg', 6],
  ['kilo', 3],
  ['kil', 3],
  ['milli', -3],
  ['micro', -6],
  ['nano', -9],
  ['pico', -12],
]);

/** Prefixes that a bench writes without their unit (`4.7k`), and its other ways to write kilo and micro. */
const BARE_PREFIXES: ReadonlyMap<string, number> = new Map([
  ['G', 9],
  ['M', 6],
  ['Meg', 6],
  ['meg', 6],
  ['k', 3],
  ['K', 3],
  ['m', -3],
  ['µ', -6],
  ['u', -6],
  ['n', -9],
  ['p', -12],
]);

/** The text with one code point for each of Ω, µ and K: Unicode keeps the ohm, micro and kelvin signs apart from the letters. */
function unifySigns(text: string): string {
  return text.replace(/[\u2126\u03bc\u212a]/g, (sign) => (sign === '\u2126' ? 'Ω' : sign === '\u212a' ? 'K' : 'µ'));
}

/**
 * What a unit's text means: an SI prefix and V, Ω, F or A, by symbol or by name, with AC or DC before or after.
 * @returns undefined where it is none of these
 */
export function parseUnit(text: string): UnitUse | undefined {
  if (text.length > LONGEST) return undefined;
  const plain = unifySigns(text)
    .trim()
    .replace(/^[[(](.*)[\])]$/, '$1')
    .trim();
  const { rest, current } = takeCurrent(plain);
  const use = parsePlainUnit(rest);
  if (!use || current === undefined) return use;
  if (use.unit === 'V') return { ...use, mode: current };
  if (use.unit === 'A') return { ...use, mode: 'current' };
  return undefined;
}

/** Splits off what tells direct from alternating: `VAC`, `AC V`, `V~`, `Vdc`, `V⎓`. */
function takeCurrent(text: string): { rest: string; current: 'AC volts' | 'DC volts' | undefined } {
  const before = /^(ac|dc)[ .-]?(?=.)/i.exec(text);
  const after = /[ .-]?(ac|dc|rms|~|∼|⎓|=|⏛)$/i.exec(text);
  const word = (before?.[1] ?? after?.[1])?.toLowerCase();
  if (word === undefined) return { rest: text, current: undefined };
  const rest = before ? text.slice(before[0].length) : text.slice(0, after?.index);
  const current = word === 'ac' || word === 'rms' || word === '~' || word === '∼' ? 'AC volts' : 'DC volts';
  return rest === '' ? { rest: text, current: undefined } : { rest, current };
}

function parsePlainUnit(text: string): UnitUse | undefined {
  if (text === '') return { prefix: 0 };
  const bare = BARE_PREFIXES.get(text);
  if (bare !== undefined) return { prefix: bare };
  const whole = UNIT_NAMES.get(text.toLowerCase());
  if (whole) return { unit: whole, prefix: 0 };
  const other = OLD_FARADS.get(text.toLowerCase()) ?? cyrillicUnit(text);
  if (other) return other;
  const spaced = /^([^ ]{1,5}) (.+)$/.exec(text);
  const split = spaced ? [spaced[1]!, spaced[2]!] : undefined;
  for (const [head, tail] of split ? [split] : splits(text)) {
    const unit = tail!.length > 1 || PREFIXED_SYMBOLS.has(tail!) ? UNIT_NAMES.get(tail!.toLowerCase()) : undefined;
    const power = unit && prefixPower(head!, tail!);
    if (unit !== undefined && power !== undefined) return { unit, prefix: power };
  }
  return undefined;
}

function cyrillicUnit(text: string): UnitUse | undefined {
  const [, prefix, symbol] = CYRILLIC.exec(text) ?? [];
  if (symbol === undefined) return undefined;
  return { unit: CYRILLIC_UNITS[symbol]!, prefix: prefix === undefined ? 0 : CYRILLIC_PREFIXES[prefix]! };
}

function splits(text: string): [string, string][] {
  return [1, 2, 3, 4, 5].filter((at) => at < text.length).map((at) => [text.slice(0, at), text.slice(at)]);
}

function prefixPower(head: string, tail: string): number | undefined {
  const named = tail.length > 2 ? PREFIX_NAMES.get(head.toLowerCase()) : undefined;
  return named ?? BARE_PREFIXES.get(head) ?? SI_PREFIXES.get(head);
}

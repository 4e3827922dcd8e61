import type { DecimalMark } from '../domain/quantity.ts';
import { shownRangeFault } from '../domain/shown-range.ts';
import type { Fault } from './fault.ts';
import { parseUnit } from './unit-text.ts';

const LONGEST = 24;

export const NO_ANSWER: Fault = {
  wrong: 'is no number and none of the words that meters show',
  remedy: 'Write it as the meter showed it, such as 12.4 V or OL.',
};
export const NOT_A_NUMBER: Fault = {
  wrong: 'is no number: the meter had none to give',
  remedy: 'Measure again, or let the row go.',
};
export const TOO_LARGE: Fault = {
  wrong: 'is a larger number than any meter shows',
  remedy: 'Write it as the meter showed it.',
};

const TOO_SMALL: Fault = {
  wrong: 'is a smaller number than any meter shows',
  remedy: 'Write it as the meter showed it, or 0.',
};

/** What is wrong with a reading's number, in the SI unit, that no meter can have shown. */
export function beyondMeters(value: number): Fault | undefined {
  const fault = shownRangeFault(value);
  return fault && (fault === 'too small' ? TOO_SMALL : TOO_LARGE);
}

/**
 * What is wrong with a cell that starts with a number and goes on with neither a unit nor a blank.
 * @param at - where the number ends
 */
export function restFault(cell: string, at: number, mark: DecimalMark): Fault {
  const rest = cell.slice(at, at + LONGEST + 1).trim();
  if (isOfOtherMark(cell, mark)) return otherMark(mark);
  const letter = lookalike(cell, at);
  if (letter !== undefined) {
    return { wrong: 'is no number', remedy: `Write a digit in place of the letter “${letter}”.` };
  }
  // A letter has two cases; a pattern of all letters takes milliseconds to compile.
  const namesUnit = /[%°]/.test(rest) || rest.toLowerCase() !== rest.toUpperCase();
  if (rest.length > LONGEST || /\d/.test(rest) || !namesUnit) return noNumber(mark);
  return {
    wrong: `has the unit “${rest}”, which is none of V, Ω, F and A`,
    remedy: `Correct the unit, such as 12${mark}4 V.`,
  };
}

function noNumber(mark: DecimalMark): Fault {
  return { wrong: 'is no number', remedy: `Write the number with one decimal mark, such as 12${mark}4 V.` };
}

/** `1,5` where the decimal mark is the point, and the other way round. */
function isOfOtherMark(cell: string, mark: DecimalMark): boolean {
  const digits = mark === ',' ? /^\D?\d{1,15}\.\d{1,15}(?![\d.,])/ : /^\D?\d{1,15},\d{1,15}(?![\d.,])/;
  return digits.test(cell);
}

function otherMark(mark: DecimalMark): Fault {
  const [used, found] = mark === ',' ? ['comma', 'point'] : ['point', 'comma'];
  return {
    wrong: `is no number where the decimal mark is the ${used}`,
    remedy: `Write it with a decimal ${used}, or choose the ${found} for the whole file.`,
  };
}

/** A letter that stands right behind digits and is easily taken for one, with a known unit or more of the number after it. */
function lookalike(cell: string, at: number): string | undefined {
  const letter = cell.charAt(at);
  if (!/[\d.,]/.test(cell.charAt(at - 1)) || !/[lIOo]/.test(letter)) return undefined;
  const rest = cell.slice(at + 1, at + LONGEST).trim();
  return /^[\d.,]/.test(rest) || parseUnit(rest) ? letter : undefined;
}

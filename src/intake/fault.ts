import type { Unit } from '../domain/quantity.ts';
import type { Mode } from '../domain/reading.ts';

/** What is wrong with a cell: the end of a sentence that starts with the cell, and a sentence that says what to do. */
export interface Fault {
  readonly wrong: string;
  readonly remedy: string;
}

/** The sentences for a faulty cell. @param index - the column's place, which names it where its header is empty */
export function cellReason(cell: string, header: string, index: number, fault: Fault): string {
  return `“${shorten(cell)}” in ${columnText(header, index)} ${fault.wrong}. ${fault.remedy}`;
}

/** How a sentence names a column. */
export function columnText(header: string, index: number): string {
  return header.trim() === '' ? `column ${index + 1}` : `column “${shorten(header)}”`;
}

/** A text in the length in which a sentence can quote it. */
export function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

/** Words as a choice: `a, b or c`. */
export function orList(words: readonly string[]): string {
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)!}`;
}

/** What is wrong with a cell whose word is none of those that it may hold. */
export function noWord(what: string, words: readonly string[]): Fault {
  return { wrong: `is no ${what} that is known`, remedy: `Write ${orList(words)}.` };
}

/** What is wrong with a cell in a unit in which its mode is not measured. */
export function wrongUnit(unit: Unit, mode: Mode): Fault {
  return { wrong: `is in ${unit}, in which ${mode} is not measured`, remedy: CORRECT_UNIT };
}

/** What is wrong with a cell whose unit tells another kind of volts than its mode. */
export function otherMode(named: Mode, stated: Mode): Fault {
  return { wrong: `is in ${named} by its unit, and in ${stated} by its mode`, remedy: CORRECT_UNIT };
}

/** What to do where the unit and the mode do not go together. */
export const CORRECT_UNIT = 'Correct the unit or the mode.';

export const CLOCK_FOR_DAY: Fault = {
  wrong: 'is a time of day where a day is expected',
  remedy: 'Write the day, such as 2026-03-01.',
};

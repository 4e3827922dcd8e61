import type { ColumnUse, FilePlan, Given, Question } from '../../../src/domain/file-plan.ts';

/** What the technician who has the log before them would answer; each is given only where the file's plan asks for it. */
export interface Answers {
  readonly given?: Given;
  readonly dateOrder?: FilePlan['dateOrder'];
  readonly decimalMark?: FilePlan['decimalMark'];
  /** Names of an encoding and a separator, which need not be known yet. */
  readonly encoding?: string;
  readonly separator?: string;
  /** By header, what a column is; for a file without one by its number, from 1. */
  readonly columns?: Readonly<Record<string, Partial<ColumnUse>>>;
}

/** One small log as somebody writes it, and what a careful reader concludes from it. Neither is ever taken from what the code gives. */
export interface LogCase {
  readonly name: string;
  /** The file's text; one line end before it is no part of it. */
  readonly log: string;
  /** The bytes where they are not plain UTF-8. */
  readonly bytes?: Uint8Array;
  readonly answers?: Answers;
  /** What must be asked since nobody can know it. What is stated by `answers.given` must be asked of itself. */
  readonly asks?: readonly Question['about'][];
  /**
   * The readings, one a line: `time | repair | point | stage | reading`. A blank part is that of the line above, and a time without its day
   * is on the day above; `-` is no time, a day alone is a day without a time. A reading is `388.4 V`, `12 V AC`, `0.52 V diode`, `0.3 Ω ESR`,
   * `0.2 Ω cont`, `4.7 µF`, `12 mA`, `OL Ω` and `OL 40 MΩ` for over-range (without and with its limit), `UR V` for below range, `beep`, `no beep`.
   */
  readonly reads?: string;
  /** Repairs in place of readings: `repair | family | received | returned | outcome | parts replaced`. */
  readonly repairs?: string;
  /** Physical lines that must be set aside, each with a word of the reason. */
  readonly aside?: Readonly<Record<number, RegExp>>;
  /** What a notice must say. */
  readonly says?: RegExp;
}

/** The text of a log without the line end that the template string begins with. */
export function textOf({ log }: LogCase): string {
  return log.replace(/^\n/, '');
}

/** Bytes of a text in a one-byte encoding whose characters beyond ASCII are listed with their bytes. */
export function oneByte(text: string, bytes: Readonly<Record<string, number>>): Uint8Array {
  return Uint8Array.from(text.replace(/^\n/, ''), (character) => bytes[character] ?? character.charCodeAt(0));
}

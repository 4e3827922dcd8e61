import { BELOW_RANGE, OVER_RANGE, VALUE, type ReadingLog } from '../../columns/reading-log.ts';
import { isDayOnly } from '../../domain/day.ts';
import { GUARD_NOTE, guardFormula } from '../../domain/formula-guard.ts';
import { plainNumber } from '../../domain/plain-number.ts';
import { prefixSymbol } from '../../domain/prefix.ts';
import { MODE_UNITS, SPECIMENS, STATES } from '../../domain/reading.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { CallContext } from '../contract/calls.ts';
import type { WorkProgress } from '../contract/progress.ts';
import { PacedWork } from './paced-work.ts';

/** Readings that are written before the next look for a cancel; their text is all that is held apart from the file. */
const PIECE_ROWS = 4096;

/** The time stands first: it never begins with the mark of a comment. */
const NAMES = ['repair', 'family', 'point', 'meter'];
const COLUMNS = ['time', 'repair', 'family', 'point', 'stage', 'mode', 'specimen', 'reading', 'unit', 'meter'];

/** Other separators than the comma, by which a file with names that hold them might be taken to be parted. */
const OTHER_SEPARATOR = /[;|\t]/;

/**
 * Some readings of a log as CSV with commas and decimal points (RFC 4180, UTF-8). Brought in again, the file gives the same readings. Where a name
 * holds another separator, a first line states the comma.
 * @param rows - rows of the log, in the order in which they are written
 * @param isForSpreadsheet - with an apostrophe before each name that a spreadsheet program would take for a formula, which the headers of these
 *   columns note; else exactly as they are
 * @throws the signal's reason where the call was stopped
 */
export async function readingsText(
  log: ReadingLog,
  rows: Uint32Array,
  isForSpreadsheet: boolean,
  context: CallContext<WorkProgress>,
): Promise<Blob> {
  const lines = new ReadingLines(log, isForSpreadsheet);
  const pieces: Blob[] = [];
  const work = new PacedWork(context, rows.length);
  try {
    for (let start = 0; start < rows.length; start += PIECE_ROWS) {
      const piece = rows.subarray(start, start + PIECE_ROWS);
      let text = '';
      for (const row of piece) text += lines.line(row);
      pieces.push(new Blob([text]));
      await work.step(piece.length);
    }
  } finally {
    work.close();
  }
  return new Blob([lines.header(), ...pieces], { type: 'text/csv' });
}

/** Writes readings as lines; each name and each check is made into text once. */
class ReadingLines {
  readonly #log: ReadingLog;
  readonly #isForSpreadsheet: boolean;
  readonly #repairs: string[] = [];
  readonly #checks: string[] = [];
  readonly #meters: string[] = [];
  /** Whether a name that was written holds another separator. */
  #statesComma = false;

  constructor(log: ReadingLog, isForSpreadsheet: boolean) {
    this.#log = log;
    this.#isForSpreadsheet = isForSpreadsheet;
  }

  /** What stands above the lines that were written. */
  header(): string {
    const note = this.#isForSpreadsheet ? GUARD_NOTE : '';
    const columns = COLUMNS.map((name) => (NAMES.includes(name) ? name + note : name));
    return `${this.#statesComma ? 'sep=,\r\n' : ''}${writeRow(columns, ',')}\r\n`;
  }

  line(row: number): string {
    const log = this.#log;
    const { repairs, meters } = log.names;
    const repairCode = log.repair[row]!;
    const checkCode = log.check[row]!;
    const meterCode = log.meter[row]!;
    const repair = (this.#repairs[repairCode] ??= this.#nameCell(repairs.label(repairCode)));
    const check = (this.#checks[checkCode] ??= this.#checkCells(checkCode));
    const meter = (this.#meters[meterCode] ??= this.#nameCell(meters.label(meterCode)));
    const specimen = SPECIMENS[log.specimen[row]!]!;
    return `${timeText(log.time[row]!)},${repair},${check},${specimen},${this.#answerCells(row)},${meter}\r\n`;
  }

  #nameCell(name: string): string {
    this.#statesComma ||= OTHER_SEPARATOR.test(name);
    return writeRow(['', this.#isForSpreadsheet ? guardFormula(name) : name], ',').slice(1);
  }

  #checkCells(code: number): string {
    const { checks, families, points } = this.#log.names;
    const { family, point, stage, mode } = checks.check(code, families, points);
    return `${this.#nameCell(family)},${this.#nameCell(point)},${stage},${mode}`;
  }

  /** Reading and unit. */
  #answerCells(row: number): string {
    const log = this.#log;
    const value = log.value[row]!;
    const state = log.state[row]!;
    const shown = { prefix: log.prefix[row]!, decimals: log.decimals[row]! };
    const unit = MODE_UNITS[log.names.checks.mode(log.check[row]!)];
    const shownUnit = prefixSymbol(shown.prefix) + unit;
    if (state === VALUE) return `${plainNumber(value, shown)},${shownUnit}`;
    if (state === OVER_RANGE) return `${Number.isNaN(value) ? 'OL' : `>${plainNumber(value, shown)}`},${shownUnit}`;
    return `${state === BELOW_RANGE ? 'below range' : STATES[state]!},${unit}`;
  }
}

/** A wall time as ISO 8601 writes it, a blank for its T, or its day where that is all; empty where it is unknown. */
function timeText(time: number): string {
  if (Number.isNaN(time)) return '';
  const iso = new Date(time).toISOString();
  if (isDayOnly(time)) return iso.slice(0, 10);
  return `${iso.slice(0, 10)} ${iso.slice(11, iso.endsWith('.000Z') ? 19 : 23)}`;
}

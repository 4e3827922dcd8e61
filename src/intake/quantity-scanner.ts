import { BELOW_RANGE, BLANK, OVER_RANGE, VALUE } from '../columns/reading-log.ts';
import { shownFor, type DecimalMark, type Unit } from '../domain/quantity.ts';
import { STATES, type Mode, type State } from '../domain/reading.ts';
import { detached } from './detached.ts';
import type { Fault } from './fault.ts';
import { NumberScanner } from './number-scanner.ts';
import { NO_ANSWER, NOT_A_NUMBER, TOO_LARGE, restFault } from './quantity-faults.ts';
import { MARK_LETTERS } from './resistor-mark.ts';
import { leadingOverRange, stateOfWord } from './state-words.ts';
import { parseUnit, type UnitUse } from './unit-text.ts';

/**
 * Instruments answer with these numbers where they have none: over-range and no number at all.
 * Source: SCPI-1999, volume 1, 7.2.1.4 and 7.2.1.5 (9.9E37 and 9.91E37).
 */
const SCPI_INFINITY = 9.9e37;
const SCPI_NAN = 9.91e37;

const LONGEST_UNIT = 24;
const BOUNDS: readonly string[] = ['<', '>', '≤', '≥'];
const UNKNOWN_UNIT = 'unknown';

/** Reads a cell as a meter's answer: a state, and for `value` a number with its unit. Fields hold the answer until the next scan. */
export class QuantityScanner {
  /** Index into `STATES`. */
  state = BLANK;
  /** In the SI unit, `NaN` unless a number was given. */
  value = NaN;
  prefix = 0;
  decimals = 0;
  /** Unit that the cell itself names. */
  unit: Unit | undefined = undefined;
  /** Mode that the cell's unit gives away. */
  mode: Mode | undefined = undefined;
  /** Whether the number may be read in two ways: `5.555` where the decimal mark is the comma. */
  loneGroup = false;
  /** Whether the number shows that group marks are in use, or the decimal mark. */
  showsGroups = false;
  showsMark = false;
  readonly #number = new NumberScanner();
  readonly #overRange: ReadonlySet<string>;
  readonly #units = new Map<string, UnitUse | typeof UNKNOWN_UNIT>();

  /** @param overRangeMarks - what stands for over-range beside the usual marks */
  constructor(overRangeMarks: readonly string[] = []) {
    this.#overRange = new Set(overRangeMarks.map((mark) => mark.trim().toLowerCase()));
  }

  /**
   * Reads `cell`.
   * @param prefix - power of ten of the prefix that the cell's surroundings give, for a cell without a unit
   * @returns what is wrong with the cell, or undefined where it was read
   */
  scan(cell: string, mark: DecimalMark, prefix: number): Fault | undefined {
    this.unit = this.mode = undefined;
    this.loneGroup = this.showsGroups = this.showsMark = false;
    const code = cell.charCodeAt(0);
    const number = this.#number;
    // A mark without decimals may be a word: some meters show `1.` for over-range.
    if (code >= 48 && code <= 57 && number.scan(cell, 0, mark) && (number.decimals > 0 || !number.hasMark)) {
      if (number.end === cell.length) return this.#finish(prefix);
      if (this.#scanRest(cell, mark, prefix) === undefined) return undefined;
    }
    return this.#scanOther(cell.trim(), mark, prefix);
  }

  #scanOther(cell: string, mark: DecimalMark, prefix: number): Fault | undefined {
    const word = this.#overRange.has(cell.toLowerCase()) ? 'over-range' : stateOfWord(cell);
    if (word !== undefined) return this.#answer(word, prefix);
    const first = cell.charAt(0);
    if (BOUNDS.includes(first)) return this.#scanBound(cell, mark, prefix);
    const over = leadingOverRange(cell);
    if (over !== undefined) {
      const use = this.#unitUse(cell.slice(over));
      if (use === UNKNOWN_UNIT) return restFault(cell, over, mark);
      this.unit = use.unit;
      return this.#answer('over-range', use.prefix);
    }
    if (this.#number.scan(cell, 0, mark)) return this.#scanRest(cell, mark, prefix);
    const letter = MARK_LETTERS.get(first);
    if (letter) {
      this.#number.startWithDecimals(cell);
      if (this.#number.scanDecimals(1)) return this.#finishMark(cell, mark, letter.unit, letter.prefix);
    }
    return /^nan$/i.test(cell) ? NOT_A_NUMBER : NO_ANSWER;
  }

  /** A number with something behind it: a unit, or a letter in the place of the decimal mark. */
  #scanRest(cell: string, mark: DecimalMark, prefix: number): Fault | undefined {
    const number = this.#number;
    let at = number.end;
    if (!number.hasMark && !number.hasExponent) {
      const letter = MARK_LETTERS.get(cell.charAt(at));
      if (letter && number.scanDecimals(at + 1)) return this.#finishMark(cell, mark, letter.unit, letter.prefix);
      number.end = at;
    }
    while (isBlank(cell.charCodeAt(at))) at += 1;
    if (at === cell.length) return this.#finish(prefix);
    const use = this.#unitUse(cell.slice(at));
    if (use === UNKNOWN_UNIT) return restFault(cell, at, mark);
    this.unit = use.unit;
    this.mode = use.mode;
    return this.#finish(use.prefix);
  }

  /** `>40 MΩ`: over-range with its limit; `<0.1`: below-range. */
  #scanBound(cell: string, mark: DecimalMark, prefix: number): Fault | undefined {
    const over = cell.startsWith('>') || cell.startsWith('≥');
    const rest = cell.replace(/^(?:[<>]=?|[≤≥])\s*/, '');
    if (!this.#number.scan(rest, 0, mark)) return NO_ANSWER;
    const fault = this.#scanRest(rest, mark, prefix);
    if (fault !== undefined) return fault;
    this.state = over ? OVER_RANGE : BELOW_RANGE;
    if (!over) this.value = NaN;
    return undefined;
  }

  #finishMark(cell: string, mark: DecimalMark, unit: Unit, prefix: number): Fault | undefined {
    let at = this.#number.end;
    while (isBlank(cell.charCodeAt(at))) at += 1;
    if (at < cell.length) {
      const use = this.#unitUse(cell.slice(at));
      if (use === UNKNOWN_UNIT || use.unit !== unit || use.prefix !== 0) return restFault(cell, at, mark);
    }
    this.unit = unit;
    return this.#finish(prefix);
  }

  #finish(prefix: number): Fault | undefined {
    const number = this.#number;
    const value = number.value(prefix);
    if (number.hasExponent && Math.abs(value) >= SCPI_INFINITY) return this.#finishHuge(value);
    this.state = VALUE;
    this.value = value;
    this.loneGroup = number.loneGroup;
    this.showsGroups = number.grouped;
    this.showsMark = number.hasMark;
    if (number.hasExponent) {
      const shown = shownFor(value, Math.max(-300, Math.min(300, prefix + number.exponent - number.decimals)));
      this.prefix = Math.max(-30, Math.min(30, shown.prefix));
      this.decimals = Math.min(255, Math.max(0, shown.decimals + this.prefix - shown.prefix));
    } else {
      this.prefix = prefix;
      this.decimals = Math.min(255, number.decimals);
    }
    return undefined;
  }

  #finishHuge(value: number): Fault | undefined {
    if (value === SCPI_INFINITY) return this.#answer('over-range', 0);
    if (value === -SCPI_INFINITY) return this.#answer('below-range', 0);
    return Math.abs(value) === SCPI_NAN ? NOT_A_NUMBER : TOO_LARGE;
  }

  #answer(state: State, prefix: number): Fault | undefined {
    this.state = STATES.indexOf(state);
    this.value = NaN;
    this.prefix = state === 'over-range' ? prefix : 0;
    this.decimals = 0;
    return undefined;
  }

  #unitUse(text: string): UnitUse | typeof UNKNOWN_UNIT {
    const known = this.#units.get(text);
    if (known) return known;
    if (text.length > LONGEST_UNIT) return UNKNOWN_UNIT;
    const use = parseUnit(text) ?? UNKNOWN_UNIT;
    if (this.#units.size < 1000) this.#units.set(detached(text), use);
    return use;
  }
}

function isBlank(code: number): boolean {
  return code === 32 || code === 9 || code === 0xa0 || code === 0x202f || code === 0x2009;
}

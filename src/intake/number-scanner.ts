import type { DecimalMark } from '../domain/quantity.ts';

const ZERO = 48;
const NINE = 57;
const COMMA = 44;
const POINT = 46;
/** Signs that stand for minus: hyphen-minus, U+2212, en dash, small and full-width hyphen-minus. */
const MINUS = new Set([45, 0x2212, 0x2013, 0xfe63, 0xff0d]);
const PLUS = 43;
/** Marks between groups of three digits besides point and comma: space, no-break, thin and narrow no-break space, two apostrophes. */
const GROUP_MARKS = new Set([0x20, 0xa0, 0x2009, 0x202f, 0x27, 0x2019]);
/** So many digits are exact in a double. */
const EXACT_DIGITS = 15;
/** Powers of ten up to this one are exact in a double. */
const EXACT_POWER = 22;
const POWERS_OF_TEN = Float64Array.from({ length: EXACT_POWER + 1 }, (_, power) => Number(`1e${power}`));

/**
 * Reads a decimal number at some place in a text, by its characters alone: sign, digits (in groups of three or not), the decimal mark,
 * an exponent. What it found stands in its fields until the next scan, so that a million cells need no objects.
 */
export class NumberScanner {
  /** First place after the number. */
  end = 0;
  negative = false;
  /** The digits as one whole number, meaningful up to 15 of them. */
  digits = 0;
  /** Digits after the decimal mark. */
  decimals = 0;
  exponent = 0;
  hasExponent = false;
  /** Whether it holds one group mark and no decimal mark, and so might be a number with three decimals (`5.555`). */
  loneGroup = false;
  /** Whether a decimal mark stood in it. */
  hasMark = false;
  /** Whether grouping is beyond doubt: two groups, or a group and a decimal mark. */
  grouped = false;
  #text = '';
  #start = 0;
  #count = 0;

  /** Reads the number that starts at `from`. @returns whether there is one */
  scan(text: string, from: number, mark: DecimalMark): boolean {
    const decimal = mark === ',' ? COMMA : POINT;
    const other = mark === ',' ? POINT : COMMA;
    this.exponent = 0;
    this.hasExponent = this.loneGroup = this.hasMark = this.grouped = this.negative = false;
    let at = from;
    let code = text.charCodeAt(at);
    if (code === PLUS || (!(code >= ZERO && code <= NINE) && MINUS.has(code))) {
      this.negative = code !== PLUS;
      code = text.charCodeAt((at += 1));
    }
    this.#text = text;
    this.#start = at;
    let digits = 0;
    let count = 0;
    while (code >= ZERO && code <= NINE) {
      digits = digits * 10 + (code - ZERO);
      count += 1;
      code = text.charCodeAt((at += 1));
    }
    if (count > 0 && count <= 3 && (code === other || GROUP_MARKS.has(code))) {
      const groupMark = code;
      let groups = 0;
      while (code === groupMark && isGroup(text, at + 1)) {
        for (let place = at + 1; place < at + 4; place += 1) digits = digits * 10 + (text.charCodeAt(place) - ZERO);
        count += 3;
        groups += 1;
        code = text.charCodeAt((at += 4));
      }
      if (groups > 0) {
        if (text.charCodeAt(this.#start) === ZERO) return false;
        this.grouped = groups > 1 || code === decimal;
        this.loneGroup = !this.grouped && groupMark === other;
      }
    }
    const whole = count;
    if (code === decimal) {
      this.hasMark = true;
      code = text.charCodeAt((at += 1));
      while (code >= ZERO && code <= NINE) {
        digits = digits * 10 + (code - ZERO);
        count += 1;
        code = text.charCodeAt((at += 1));
      }
    }
    if (count === 0) return false;
    this.decimals = count - whole;
    this.digits = digits;
    this.#count = count;
    this.end = at;
    if (code === 69 || code === 101) this.#scanExponent(text, at + 1);
    return true;
  }

  /** Continues the number with decimals that follow a letter in the decimal mark's place (`4K7`). @returns whether there are any */
  scanDecimals(from: number): boolean {
    let at = from;
    let code = this.#text.charCodeAt(at);
    while (code >= ZERO && code <= NINE) {
      this.digits = this.digits * 10 + (code - ZERO);
      this.#count += 1;
      this.decimals += 1;
      code = this.#text.charCodeAt((at += 1));
    }
    this.end = at;
    return at > from;
  }

  /** Starts a number that has only decimals (`R47`). */
  startWithDecimals(text: string): void {
    this.#text = text;
    this.#start = 0;
    this.exponent = this.digits = this.decimals = this.#count = 0;
    this.hasExponent = this.loneGroup = this.hasMark = this.grouped = this.negative = false;
  }

  /** The number times `10^prefix`, as near as a double comes to it. */
  value(prefix: number): number {
    const power = prefix + this.exponent - this.decimals;
    const magnitude =
      this.#count <= EXACT_DIGITS && power >= -EXACT_POWER && power <= EXACT_POWER
        ? power < 0
          ? this.digits / POWERS_OF_TEN[-power]!
          : this.digits * POWERS_OF_TEN[power]!
        : Number(`${this.#allDigits()}e${power}`);
    return this.negative && magnitude !== 0 ? -magnitude : magnitude;
  }

  #allDigits(): string {
    let all = '';
    for (let at = this.#start; all.length < this.#count; at += 1) {
      const code = this.#text.charCodeAt(at);
      if (code >= ZERO && code <= NINE) all += this.#text[at]!;
    }
    return all;
  }

  #scanExponent(text: string, from: number): void {
    let at = from;
    let code = text.charCodeAt(at);
    const negative = MINUS.has(code);
    if (negative || code === PLUS) code = text.charCodeAt((at += 1));
    const first = at;
    let exponent = 0;
    while (code >= ZERO && code <= NINE) {
      exponent = Math.min(exponent * 10 + (code - ZERO), 9999);
      code = text.charCodeAt((at += 1));
    }
    if (at === first) return;
    this.exponent = negative ? -exponent : exponent;
    this.hasExponent = true;
    this.end = at;
  }
}

/** Whether three digits stand at `at`, and no fourth. */
function isGroup(text: string, at: number): boolean {
  for (let place = at; place < at + 3; place += 1) {
    const code = text.charCodeAt(place);
    if (!(code >= ZERO && code <= NINE)) return false;
  }
  const next = text.charCodeAt(at + 3);
  return !(next >= ZERO && next <= NINE);
}

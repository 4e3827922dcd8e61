/** All rows of a log in their own order. */
export function identityOrder(count: number): Uint32Array {
  const rows = new Uint32Array(count);
  for (let row = 0; row < count; row += 1) rows[row] = row;
  return rows;
}

/** A stable order of `rows` by small integers (`key[row]` below `bound`), by counting. */
export function orderByCode(rows: Uint32Array, key: ArrayLike<number>, bound: number, descending = false): Uint32Array {
  const start = new Uint32Array(bound + 1);
  for (const row of rows) start[key[row]! + 1]! += 1;
  if (descending) {
    let sum = 0;
    for (let code = bound - 1; code >= 0; code -= 1) {
      const size = start[code + 1]!;
      start[code + 1] = sum;
      sum += size;
    }
    start.copyWithin(0, 1);
  } else {
    for (let code = 0; code < bound; code += 1) start[code + 1]! += start[code]!;
  }
  const ordered = new Uint32Array(rows.length);
  for (const row of rows) ordered[start[key[row]!]!++] = row;
  return ordered;
}

/**
 * A stable order of `rows` by numbers; `NaN` last in either direction.
 * Radix sort on the upper halves of the doubles, which tell apart what differs by a millionth of itself; what they leave
 * in disorder is settled by insertion, or, where that is much, by sorting on the lower halves first.
 */
export function orderByNumber(rows: Uint32Array, key: Float64Array, descending = false): Uint32Array {
  const ordered = new Uint32Array(rows.length);
  let count = 0;
  for (const row of rows) if (!Number.isNaN(key[row]!)) ordered[count++] = row;
  const known = ordered.subarray(0, count);
  if (count < rows.length) for (const row of rows) if (Number.isNaN(key[row]!)) ordered[count++] = row;
  sortByBits(known, halfBits(known, key, UPPER, descending));
  if (!settle(known, key, descending)) {
    sortByBits(known, halfBits(known, key, LOWER, descending));
    sortByBits(known, halfBits(known, key, UPPER, descending));
  }
  return ordered;
}

/** The places of a double's halves in memory, by little-endian order, which every browser has. */
const LOWER = 0;
const UPPER = 1;

const SIGN = 0x80000000;

/** One half of the bits of each row's number, so changed that they sort as integers: as they are they do for positive numbers, in reverse for negative ones. */
function halfBits(rows: Uint32Array, key: Float64Array, half: 0 | 1, descending: boolean): Uint32Array {
  const bits = new Uint32Array(key.buffer, key.byteOffset, 2 * key.length);
  const keys = new Uint32Array(rows.length);
  const order = descending ? -1 : 0;
  const sign = half === UPPER ? SIGN : 0;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at]!;
    // -0 must not sort apart from 0, which alone has no bit set but the sign.
    const isNegative = key[row]! < 0;
    const own = key[row] === 0 ? 0 : bits[2 * row + half]!;
    keys[at] = (isNegative ? ~own : own | sign) ^ order;
  }
  return keys;
}

const DIGIT_BITS = 11;
const DIGITS = 1 << DIGIT_BITS;
const PASSES = 3;

/** Puts rows in the order of their keys, stably, by eleven bits at a time. The keys lose their order. */
function sortByBits(rows: Uint32Array, keys: Uint32Array): void {
  const counts = new Uint32Array(PASSES * DIGITS);
  for (const key of keys) {
    for (let pass = 0; pass < PASSES; pass += 1) {
      counts[pass * DIGITS + ((key >>> (pass * DIGIT_BITS)) & (DIGITS - 1))]! += 1;
    }
  }
  let from: Keyed = { rows, keys };
  let to: Keyed = { rows: new Uint32Array(rows.length), keys: new Uint32Array(rows.length) };
  for (let pass = 0; pass < PASSES; pass += 1) {
    const next = counts.subarray(pass * DIGITS, (pass + 1) * DIGITS);
    if (next.includes(rows.length)) continue;
    toStarts(next);
    scatter(from, to, pass * DIGIT_BITS, next);
    [from, to] = [to, from];
  }
  if (from.rows !== rows) rows.set(from.rows);
}

interface Keyed {
  readonly rows: Uint32Array;
  readonly keys: Uint32Array;
}

/** @param next - the place of the next key of each digit */
function scatter(from: Keyed, to: Keyed, shift: number, next: Uint32Array): void {
  const { rows, keys } = from;
  const { rows: toRows, keys: toKeys } = to;
  for (let at = 0; at < rows.length; at += 1) {
    const key = keys[at]!;
    const place = next[(key >>> shift) & (DIGITS - 1)]!++;
    toRows[place] = rows[at]!;
    toKeys[place] = key;
  }
}

/** Turns counts into the places where each of them starts. */
function toStarts(counts: Uint32Array): void {
  let start = 0;
  for (let digit = 0; digit < counts.length; digit += 1) {
    const count = counts[digit]!;
    counts[digit] = start;
    start += count;
  }
}

/** More moves than this for each row, and insertion is given up. */
const MOVES_PER_ROW = 8;

/** Settles what little disorder is left in rows, stably. @returns whether it was little; what is left of much is no less ordered among equals */
function settle(rows: Uint32Array, key: Float64Array, descending: boolean): boolean {
  let moves = MOVES_PER_ROW * rows.length;
  let before = NaN;
  for (let at = 0; at < rows.length; at += 1) {
    const row = rows[at]!;
    const number = key[row]!;
    let place = at;
    if (descending ? before < number : before > number) {
      do {
        rows[place] = rows[place - 1]!;
        place -= 1;
      } while (place > 0 && (descending ? key[rows[place - 1]!]! < number : key[rows[place - 1]!]! > number));
      rows[place] = row;
      moves -= at - place;
      if (moves < 0) return false;
    } else {
      before = number;
    }
  }
  return true;
}

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
 * Radix sort on the bits of the doubles, least significant 16 first: the bits of a positive double sort as integers, those of a negative one in reverse.
 */
export function orderByNumber(rows: Uint32Array, key: Float64Array, descending = false): Uint32Array {
  const numbers = rows.filter((row) => !Number.isNaN(key[row]!));
  const missing = rows.filter((row) => Number.isNaN(key[row]!));
  const count = numbers.length;
  const double = new Float64Array(1);
  const bits = new Uint32Array(double.buffer);
  let low = new Uint32Array(count);
  let high = new Uint32Array(count);
  for (let at = 0; at < count; at += 1) {
    // Adding zero turns -0 into 0, which must not sort apart.
    double[0] = key[numbers[at]!]! + 0;
    const negative = (bits[1]! & 0x80000000) !== 0;
    const lowKey = negative ? ~bits[0]! : bits[0]!;
    const highKey = negative ? ~bits[1]! : bits[1]! | 0x80000000;
    low[at] = descending ? ~lowKey : lowKey;
    high[at] = descending ? ~highKey : highKey;
  }
  let source = numbers;
  let target = new Uint32Array(count);
  let lowTarget = new Uint32Array(count);
  let highTarget = new Uint32Array(count);
  const starts = new Uint32Array(0x10001);
  for (let pass = 0; pass < 4; pass += 1) {
    const word = pass < 2 ? low : high;
    const shift = (pass & 1) * 16;
    starts.fill(0);
    for (let at = 0; at < count; at += 1) starts[((word[at]! >>> shift) & 0xffff) + 1]! += 1;
    for (let digit = 0; digit < 0x10000; digit += 1) starts[digit + 1]! += starts[digit]!;
    for (let at = 0; at < count; at += 1) {
      const place = starts[(word[at]! >>> shift) & 0xffff]!++;
      target[place] = source[at]!;
      lowTarget[place] = low[at]!;
      highTarget[place] = high[at]!;
    }
    [source, target] = [target, source];
    [low, lowTarget] = [lowTarget, low];
    [high, highTarget] = [highTarget, high];
  }
  const ordered = new Uint32Array(rows.length);
  ordered.set(source);
  ordered.set(missing, count);
  return ordered;
}

/** A set of row numbers below `length`, one bit each. */
export class RowSet {
  readonly length: number;
  readonly #words: Uint32Array;

  constructor(length: number) {
    this.length = length;
    this.#words = new Uint32Array((length + 31) >>> 5);
  }

  /** All rows for which `test` holds. */
  static where(length: number, test: (row: number) => boolean): RowSet {
    const set = new RowSet(length);
    let word = 0;
    for (let row = 0; row < length; row += 1) {
      if (test(row)) word |= 1 << (row & 31);
      if ((row & 31) !== 31 && row !== length - 1) continue;
      set.#words[row >>> 5] = word;
      word = 0;
    }
    return set;
  }

  add(row: number): void {
    this.#words[row >>> 5]! |= 1 << (row & 31);
  }

  has(row: number): boolean {
    return (this.#words[row >>> 5]! & (1 << (row & 31))) !== 0;
  }

  /** How many rows are in the set, counting bits in parallel (S. E. Anderson, Bit Twiddling Hacks). */
  count(): number {
    let total = 0;
    for (let word of this.#words) {
      word -= (word >>> 1) & 0x55555555;
      word = (word & 0x33333333) + ((word >>> 2) & 0x33333333);
      total += Math.imul((word + (word >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
    }
    return total;
  }

  /** The rows that are in both sets. @throws where the lengths differ. */
  and(other: RowSet): RowSet {
    if (other.length !== this.length) throw new RangeError('Row sets of different lengths have no intersection.');
    const both = new RowSet(this.length);
    for (let word = 0; word < this.#words.length; word += 1)
      both.#words[word] = this.#words[word]! & other.#words[word]!;
    return both;
  }

  /** The rows in ascending order. */
  rows(): Uint32Array {
    const rows = new Uint32Array(this.count());
    let next = 0;
    for (let at = 0; at < this.#words.length; at += 1) {
      // Takes the lowest bit away again and again.
      for (let word = this.#words[at]!; word !== 0; word &= word - 1)
        rows[next++] = 32 * at + 31 - Math.clz32(word & -word);
    }
    return rows;
  }
}

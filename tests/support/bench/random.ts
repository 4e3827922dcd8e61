/** Chances: entries with their weights, which need not add up to one. */
export type Weighted<T> = readonly (readonly [T, number])[];

/**
 * Seeded random numbers by the algorithm sfc32 of Chris Doty-Humphrey (PractRand, 2010), warmed up by 15 rounds.
 * Only the four operations, comparisons and 32-bit integers are used, so the same seed gives the same numbers on every machine:
 * `Math.log` and `Math.cos` may differ in their last digit from engine to engine (ECMA-262, 21.3.2).
 */
export class Random {
  #a: number;
  #b: number;
  #c: number;
  #counter = 1;

  /** @param seed - a whole number; its low 32 bits count */
  constructor(seed: number) {
    this.#a = seed | 0;
    this.#b = 0x9e3779b9 | 0;
    this.#c = 0x243f6a88 | 0;
    for (let round = 0; round < 15; round++) this.#next();
  }

  #next(): number {
    const out = (((this.#a + this.#b) | 0) + this.#counter) | 0;
    this.#counter = (this.#counter + 1) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = (((this.#c << 21) | (this.#c >>> 11)) + out) | 0;
    return out >>> 0;
  }

  /** From `low` up to, but not including, `high`. */
  uniform(low = 0, high = 1): number {
    return low + (high - low) * (this.#next() / 4294967296);
  }

  /** A whole number from `low` to `high`, both included. */
  whole(low: number, high: number): number {
    return Math.floor(this.uniform(low, high + 1));
  }

  chance(probability: number): boolean {
    return this.uniform() < probability;
  }

  /** Nearly normal: twelve uniform numbers added up (Irwin 1927, Hall 1927), which never lie more than six deviations off. */
  normal(mean = 0, deviation = 1): number {
    let sum = -6;
    for (let term = 0; term < 12; term++) sum += this.uniform();
    return mean + deviation * sum;
  }

  /** Exponential with the given mean, by comparisons alone (J. von Neumann, *Various techniques used in connection with random digits*, 1951). */
  exponential(mean: number): number {
    for (let whole = 0; ; whole++) {
      const first = this.uniform();
      let last = first;
      let falling = 1;
      for (;;) {
        const next = this.uniform();
        if (next >= last) break;
        last = next;
        falling++;
      }
      if (falling % 2 === 1) return mean * (whole + first);
    }
  }

  /** Poisson with the given mean: the events of one unit of time whose gaps are exponential. */
  poisson(mean: number): number {
    let events = 0;
    for (let time = this.exponential(1); time < mean; time += this.exponential(1)) events++;
    return events;
  }

  /** One entry, by weight. @throws RangeError where there is none with a weight above zero. */
  pick<T>(entries: Weighted<T>): T {
    const total = entries.reduce((sum, [, weight]) => sum + weight, 0);
    let left = this.uniform(0, total);
    for (const [entry, weight] of entries) {
      left -= weight;
      if (left < 0) return entry;
    }
    throw new RangeError('There is nothing to pick from.');
  }
}

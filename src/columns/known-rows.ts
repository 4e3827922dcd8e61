import type { ReadingLog } from './reading-log.ts';

/**
 * The rows of `added` that `present` does not hold yet, in order. A row is known where time, repair, check, specimen, state, value and meter are
 * all the same; each row of `present` answers for one row only, so that readings that were really taken twice stay two.
 * Rows without a time cannot be recognised and count as new.
 */
export function newRows(present: ReadingLog, added: ReadingLog): Uint32Array {
  const seen = new RowIndex(present);
  const repairs = Int32Array.from(added.names.repairs.labels, (label) => present.names.repairs.find(label));
  const meters = Int32Array.from(added.names.meters.labels, (label) => present.names.meters.find(label));
  const checks = matchChecks(present, added);
  const fresh: number[] = [];
  for (let row = 0; row < added.count; row += 1) {
    const repair = repairs[added.repair[row]!]!;
    const check = checks[added.check[row]!]!;
    const meter = meters[added.meter[row]!]!;
    const isKnown =
      repair >= 0 &&
      check >= 0 &&
      meter >= 0 &&
      seen.take(
        added.time[row]!,
        repair,
        (other) =>
          present.check[other] === check &&
          present.meter[other] === meter &&
          present.state[other] === added.state[row] &&
          present.specimen[other] === added.specimen[row] &&
          Object.is(present.value[other], added.value[row]),
      );
    if (!isKnown) fresh.push(row);
  }
  return Uint32Array.from(fresh);
}

/** Rows of a log by time and repair: a table of chains, each row at the head of those that fell to the same slot before it. */
class RowIndex {
  readonly #log: ReadingLog;
  readonly #heads: Int32Array;
  readonly #next: Int32Array;
  readonly #taken: Uint8Array;
  readonly #bits: Uint32Array;
  readonly #double: Float64Array;

  constructor(log: ReadingLog) {
    this.#log = log;
    this.#double = new Float64Array(1);
    this.#bits = new Uint32Array(this.#double.buffer);
    this.#heads = new Int32Array(2 ** Math.ceil(Math.log2(log.count + 2))).fill(-1);
    this.#next = new Int32Array(log.count);
    this.#taken = new Uint8Array(log.count);
    for (let row = log.count - 1; row >= 0; row -= 1) {
      const slot = this.#slot(log.time[row]!, log.repair[row]!);
      this.#next[row] = this.#heads[slot]!;
      this.#heads[slot] = row;
    }
  }

  /** Finds the first row of that time and repair that `matches` and was not taken yet, and takes it. */
  take(time: number, repair: number, matches: (row: number) => boolean): boolean {
    if (Number.isNaN(time)) return false;
    const log = this.#log;
    for (let row = this.#heads[this.#slot(time, repair)]!; row >= 0; row = this.#next[row]!) {
      if (this.#taken[row] === 1 || log.time[row] !== time || log.repair[row] !== repair || !matches(row)) continue;
      this.#taken[row] = 1;
      return true;
    }
    return false;
  }

  #slot(time: number, repair: number): number {
    this.#double[0] = time;
    const mixed = Math.imul(this.#bits[0]! ^ Math.imul(this.#bits[1]! + repair, 0x9e3779b1), 0x85ebca6b);
    return (mixed ^ (mixed >>> 15)) & (this.#heads.length - 1);
  }
}

/** For each check of `added`, the code of the same check in `present`, `-1` where there is none. */
function matchChecks(present: ReadingLog, added: ReadingLog): Int32Array {
  const keys = (log: ReadingLog): string[] =>
    Array.from({ length: log.names.checks.size }, (_, code) =>
      JSON.stringify(log.names.checks.check(code, log.names.families, log.names.points)),
    );
  const known = new Map(keys(present).map((key, code) => [key, code]));
  return Int32Array.from(keys(added), (key) => known.get(key) ?? -1);
}

import { betaDraw, dirichletDraw } from '../../statistics/random/gamma-draw.ts';
import type { Uniform } from '../../statistics/random/seeded-random.ts';
import type { BoardPattern, BoardPatterns, DoubtfulSet } from './board-patterns.ts';
import { chanceOfSet, type LatentClasses } from './latent-classes.ts';

/** What is believed of a family before its boards are seen. */
export interface ClassPrior {
  /** Most causes; those that nothing speaks for stay nearly empty. */
  readonly causes: number;
  /** How often each part fails by what is known of its class of parts, above 0 and below 1, in the order of the parts. */
  readonly partShares: readonly number[];
}

/** What a cause's own chances weigh against the part's base rate, in boards. */
const BASE_WEIGHT = 1;
/** What the class of parts weighs against the part's own base rate, in causes. */
const CLASS_WEIGHT = 4;
/** What the complaints of all boards weigh against those of one cause, in boards. */
const COMPLAINT_WEIGHT = 2;
/** Weight of each cause before any board; small, so that needless causes empty (Rousseau and Mengersen 2011, JRSS B 73:689-710). */
const CAUSE_WEIGHT = 0.5;
/** Chances stay this far from 0 and 1. */
const EDGE = 1e-6;
/** Base rates that are tried, evenly on the logit scale. */
const BASES = Array.from({ length: 30 }, (_, at) => 1 / (1 + Math.exp(7 - (at * 8.5) / 29)));

/**
 * Draws from the posterior of the causes of a family's failures, given what was read of its boards.
 *
 * **Model.** Latent classes (Lazarsfeld and Henry 1968; Goodman 1974, Biometrika 61:215-231): behind each board is one of a few causes, which takes
 * each part with a chance of its own and brings each complaint with a chance of its own. What was not read is missing at random given what was
 * read, since the technician chooses what to read next from that; so the likelihood is over what was read alone (Rubin 1976, Biometrika 63:581-592).
 *
 * **Prior.** A cause's chance of a part is beta about the part's base rate, which in turn is beta about that of its class of parts.
 *
 * **Draws.** Data augmentation (Tanner and Wong 1987, JASA 82:528-540; Diebolt and Robert 1994, JRSS B 56:363-375): the cause of each board and the
 * failed parts among those that read bad together are drawn given the chances, then the chances given these; base rates over a grid
 * (Ritter and Tanner 1992, JASA 87:861-868).
 */
export class ClassSampler {
  readonly #seen: BoardPatterns;
  readonly #prior: ClassPrior;
  readonly #uniform: Uniform;
  readonly #parts: number;
  readonly #words: number;
  readonly #wordShares: Float64Array;
  readonly #bases: Float64Array;
  readonly #shares: Float64Array;
  readonly #chances: Float64Array;
  readonly #complaints: Float64Array;
  readonly #renewals: Float64Array;

  constructor(seen: BoardPatterns, prior: ClassPrior, uniform: Uniform) {
    const { causes } = prior;
    this.#seen = seen;
    this.#prior = prior;
    this.#uniform = uniform;
    this.#parts = seen.parts.length;
    this.#words = seen.complaints.length;
    this.#wordShares = complaintShares(seen);
    this.#bases = baseRates(seen, prior.partShares);
    this.#shares = new Float64Array(causes).fill(1 / causes);
    this.#chances = new Float64Array(causes * this.#parts);
    this.#complaints = new Float64Array(causes * this.#words);
    this.#renewals = new Float64Array(this.#parts).fill(0.5);
    this.#begin();
  }

  /** One more round; the state after it is a draw. */
  next(): LatentClasses {
    const counts = this.#drawCauses();
    this.#drawChances(counts);
    this.#drawRenewals(counts);
    this.#drawBases();
    return {
      shares: this.#shares.slice(),
      chances: this.#chances.slice(),
      complaints: this.#complaints.slice(),
      renewals: this.#renewals.slice(),
    };
  }

  /** Causes begin scattered about the base rates, so that boards part among them. */
  #begin(): void {
    const { causes } = this.#prior;
    for (let cause = 0; cause < causes; cause += 1) {
      for (let part = 0; part < this.#parts; part += 1) {
        const base = this.#bases[part]!;
        this.#chances[cause * this.#parts + part] = held(betaDraw(3 * base, 3 * (1 - base), this.#uniform));
      }
      this.#complaints.set(this.#wordShares, cause * this.#words);
    }
  }

  /** A cause for each board, and who failed among those that read bad together. */
  #drawCauses(): Counts {
    const { causes } = this.#prior;
    const counts: Counts = {
      boards: new Float64Array(causes),
      failed: new Float64Array(this.#chances.length),
      good: new Float64Array(this.#chances.length),
      complaints: new Float64Array(this.#complaints.length),
      renewed: new Float64Array(this.#parts),
      kept: new Float64Array(this.#parts),
    };
    const logs = {
      shares: this.#shares.map(Math.log),
      failed: this.#chances.map(Math.log),
      good: this.#chances.map((chance) => Math.log(1 - chance)),
      complaints: this.#complaints.map(Math.log),
    };
    const weights = new Float64Array(causes);
    for (const pattern of this.#seen.patterns) {
      this.#weigh(pattern, logs, weights);
      for (let board = 0; board < pattern.count; board += 1) this.#count(pattern, pick(weights, this.#uniform), counts);
    }
    return counts;
  }

  /** Cumulated weights of the causes behind a board. */
  #weigh({ failed, good, doubtful, complaint }: BoardPattern, logs: Logs, weights: Float64Array): void {
    let most = -Infinity;
    for (let cause = 0; cause < weights.length; cause += 1) {
      const start = cause * this.#parts;
      let log = logs.shares[cause]!;
      if (complaint !== undefined) log += logs.complaints[cause * this.#words + complaint]!;
      for (const part of failed) log += logs.failed[start + part]!;
      for (const part of good) log += logs.good[start + part]!;
      for (const set of doubtful) log += Math.log(chanceOfSet(set, this.#chances, start, this.#renewals));
      weights[cause] = log;
      if (log > most) most = log;
    }
    let sum = 0;
    for (let cause = 0; cause < weights.length; cause += 1) weights[cause] = sum += Math.exp(weights[cause]! - most);
  }

  #count({ failed, good, kept, doubtful, complaint }: BoardPattern, cause: number, counts: Counts): void {
    const start = cause * this.#parts;
    counts.boards[cause]! += 1;
    if (complaint !== undefined) counts.complaints[cause * this.#words + complaint]! += 1;
    for (const part of failed) counts.failed[start + part]! += 1;
    for (const part of good) counts.good[start + part]! += 1;
    for (const part of kept) counts.kept[part]! += 1;
    for (const set of doubtful) this.#settle(set, start, counts);
  }

  /** Part by part, given what is known of the parts still to come: once one has failed, the rest are free. */
  #settle(set: DoubtfulSet, start: number, counts: Counts): void {
    let { oneFailed } = set;
    for (let at = 0; at < set.parts.length; at += 1) {
      const part = set.parts[at]!;
      const chance = this.#chances[start + part]!;
      const rest = { ...set, parts: set.parts.slice(at + 1), oneFailed: false };
      const after = chanceOfSet(rest, this.#chances, start, this.#renewals);
      const whole = chanceOfSet(
        { ...set, parts: set.parts.slice(at), oneFailed },
        this.#chances,
        start,
        this.#renewals,
      );
      const hasFailed = this.#uniform() * whole < chance * after;
      (hasFailed ? counts.failed : counts.good)[start + part]! += 1;
      if (set.renewed && !hasFailed) counts.renewed[part]! += 1;
      oneFailed &&= !hasFailed;
    }
  }

  #drawChances({ boards, failed, good, complaints }: Counts): void {
    const { causes } = this.#prior;
    dirichletDraw(boards.map((count) => count + CAUSE_WEIGHT), this.#uniform, this.#shares); // prettier-ignore
    for (let cause = 0; cause < causes; cause += 1) {
      for (let part = 0; part < this.#parts; part += 1) {
        const at = cause * this.#parts + part;
        const [a, b] = [BASE_WEIGHT * this.#bases[part]!, BASE_WEIGHT * (1 - this.#bases[part]!)];
        this.#chances[at] = held(betaDraw(failed[at]! + a, good[at]! + b, this.#uniform));
      }
      if (this.#words === 0) continue;
      const own = complaints.subarray(cause * this.#words, (cause + 1) * this.#words);
      dirichletDraw(own.map((count, word) => count + COMPLAINT_WEIGHT * this.#wordShares[word]!), this.#uniform, this.#complaints.subarray(cause * this.#words, (cause + 1) * this.#words)); // prettier-ignore
    }
  }

  #drawRenewals({ renewed, kept }: Counts): void {
    for (let part = 0; part < this.#parts; part += 1)
      this.#renewals[part] = held(betaDraw(1 + renewed[part]!, 1 + kept[part]!, this.#uniform));
  }

  #drawBases(): void {
    const { causes, partShares } = this.#prior;
    const weights = new Float64Array(BASES.length);
    for (let part = 0; part < this.#parts; part += 1) {
      let [failed, good] = [0, 0];
      for (let cause = 0; cause < causes; cause += 1) {
        const chance = this.#chances[cause * this.#parts + part]!;
        failed += Math.log(chance);
        good += Math.log(1 - chance);
      }
      const own = partShares[part]!;
      let most = -Infinity;
      for (let at = 0; at < BASES.length; at += 1) {
        const base = BASES[at]!;
        // The grid is even in logits, whose density is that of the base rate times base (1 - base).
        const prior = CLASS_WEIGHT * (own * Math.log(base) + (1 - own) * Math.log(1 - base));
        const log = prior + BASE_WEIGHT * (base * failed + (1 - base) * good) - causes * BASE_LOG_BETA[at]!;
        weights[at] = log;
        if (log > most) most = log;
      }
      let sum = 0;
      for (let at = 0; at < BASES.length; at += 1) weights[at] = sum += Math.exp(weights[at]! - most);
      this.#bases[part] = BASES[pick(weights, this.#uniform)]!;
    }
  }
}

interface Counts {
  readonly boards: Float64Array;
  readonly failed: Float64Array;
  readonly good: Float64Array;
  readonly complaints: Float64Array;
  /** Doubtful parts renewed although good, and kept. */
  readonly renewed: Float64Array;
  readonly kept: Float64Array;
}

interface Logs {
  readonly shares: Float64Array;
  readonly failed: Float64Array;
  readonly good: Float64Array;
  readonly complaints: Float64Array;
}

/** log B(w·base, w·(1 − base)) for w of 1, where it is log(π / sin(π·base)) by the reflection of the gamma function. */
const BASE_LOG_BETA = BASES.map((base) => Math.log(Math.PI / Math.sin(Math.PI * base)));

/** A place drawn by cumulated weights. */
function pick(cumulated: Float64Array, uniform: Uniform): number {
  const mark = uniform() * cumulated[cumulated.length - 1]!;
  let at = 0;
  while (at < cumulated.length - 1 && cumulated[at]! <= mark) at += 1;
  return at;
}

function held(chance: number): number {
  return Math.min(1 - EDGE, Math.max(EDGE, chance));
}

/** Of the boards with a complaint, the share of each, with half a board more of each. */
function complaintShares({ complaints, patterns }: BoardPatterns): Float64Array {
  const counts = new Float64Array(complaints.length).fill(0.5);
  for (const { complaint, count } of patterns) if (complaint !== undefined) counts[complaint]! += count;
  const whole = counts.reduce((sum, count) => sum + count, 0);
  return counts.map((count) => count / whole);
}

/** Of the boards that tell of a part, the share in which it failed, drawn towards its class of parts. */
function baseRates({ parts, patterns }: BoardPatterns, partShares: readonly number[]): Float64Array {
  const failed = new Float64Array(parts.length);
  const read = new Float64Array(parts.length).fill(1);
  for (const pattern of patterns) {
    for (const part of pattern.failed) failed[part]! += pattern.count;
    for (const part of [...pattern.failed, ...pattern.good]) read[part]! += pattern.count;
  }
  return failed.map((count, part) => Math.min(0.95, Math.max(0.005, (count + partShares[part]!) / read[part]!)));
}

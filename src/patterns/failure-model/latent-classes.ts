import type { BoardEvidence, DoubtfulSet } from './board-patterns.ts';

/**
 * One way for a family to fail, as a state of the model: causes by how often each is behind a board, and by the chance of each part and of each
 * complaint under it. Parts and complaints are independent within a cause.
 */
export interface LatentClasses {
  /** Share of each cause, summing to 1. */
  readonly shares: Float64Array;
  /** Chance of each part under each cause: cause × parts + part. */
  readonly chances: Float64Array;
  /** Chance of each complaint under each cause: cause × complaints + complaint. */
  readonly complaints: Float64Array;
  /** Chance of each part to be renewed although good, across nodes that read bad on a board that worked again. */
  readonly renewals: Float64Array;
}

/** The likelihood of what a board tells together with each cause. */
export function jointByCause(
  { shares, chances, complaints, renewals }: LatentClasses,
  { failed, good, doubtful, complaint }: BoardEvidence,
): Float64Array {
  const causes = shares.length;
  const [parts, words] = [chances.length / causes, complaints.length / causes];
  return shares.map((share, cause) => {
    let joint = share;
    if (complaint !== undefined) joint *= complaints[cause * words + complaint]!;
    for (const part of failed) joint *= chances[cause * parts + part]!;
    for (const part of good) joint *= 1 - chances[cause * parts + part]!;
    for (const set of doubtful) joint *= chanceOfSet(set, chances, cause * parts, renewals);
    return joint;
  });
}

/** The likelihood of what a board tells. */
export function likelihoodOf(state: LatentClasses, board: BoardEvidence): number {
  return jointByCause(state, board).reduce((sum, joint) => sum + joint, 0);
}

/** The chance of what a board tells of a doubtful set, by the chances of one cause from `start` on. */
export function chanceOfSet(
  { parts, oneFailed, renewed }: DoubtfulSet,
  chances: Float64Array,
  start: number,
  renewals: Float64Array,
): number {
  let [whole, none] = [1, 1];
  for (const part of parts) {
    const chance = chances[start + part]!;
    const good = (1 - chance) * (renewed ? renewals[part]! : 1);
    whole *= chance + good;
    none *= good;
  }
  return oneFailed ? whole - none : whole;
}

/** The chance of each part to have failed on a board, given what it tells. */
export function chancesOnBoard(state: LatentClasses, board: BoardEvidence): Float64Array {
  const { shares, chances, renewals } = state;
  const parts = chances.length / shares.length;
  const joint = jointByCause(state, board);
  const whole = joint.reduce((sum, one) => sum + one, 0);
  const failed = new Float64Array(parts);
  joint.forEach((one, cause) => {
    const weight = whole > 0 ? one / whole : shares[cause]!;
    const start = cause * parts;
    for (let part = 0; part < parts; part += 1) failed[part]! += weight * chances[start + part]!;
    for (const set of board.doubtful) {
      const any = chanceOfSet(set, chances, start, renewals);
      for (const part of set.parts) {
        const others = { ...set, parts: set.parts.filter((other) => other !== part), oneFailed: false };
        const own = any > 0 ? chanceOfSet(others, chances, start, renewals) / any : 1;
        failed[part]! += weight * chances[start + part]! * (own - 1);
      }
    }
  });
  for (const part of board.good) failed[part] = 0;
  for (const part of board.failed) failed[part] = 1;
  return failed;
}

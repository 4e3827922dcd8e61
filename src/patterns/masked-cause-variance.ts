import { allowedSets, type CauseObservation, type MaskedCauseFit } from './masked-cause-em.ts';

/**
 * Variance of each part's share of the bad repairs of its group, from the observed information of the fit: what the masked repairs leave open widens it.
 *
 * The information about the chances of the sets is that of the observed, not of the completed data (Louis 1982, Journal of the Royal Statistical
 * Society B 44:226-233, citation from memory), and the chances add up to 1. Without masking it is share (1 - share) / (repairs + prior).
 * Cost: O(sets³).
 */
export function shareVariances(fit: MaskedCauseFit, observations: readonly CauseObservation[]): readonly number[] {
  const { size, chances, prior } = fit;
  const sets = [...chances.keys()].filter((set) => prior[set]! > 0);
  const place = new Map(sets.map((set, at) => [set, at]));
  // In units of the chances themselves, so that tiny chances do no harm: information about log chances.
  const information = sets.map((_, row) => {
    const line = new Float64Array(sets.length);
    line[row] = prior[sets[row]!]!;
    return line;
  });
  for (const observation of observations) {
    const allowed = allowedSets(observation);
    const whole = allowed.reduce((sum, set) => sum + chances[set]!, 0);
    for (const one of allowed) {
      const line = information[place.get(one)!]!;
      for (const other of allowed) {
        line[place.get(other)!]! += (observation.count * chances[one]! * chances[other]!) / (whole * whole);
      }
    }
  }
  const root = choleskyRoot(information);
  const own = sets.map((set) => chances[set]!);
  const ofSum = halfSolve(root, own);
  return Array.from({ length: size }, (_, part) => {
    const ofPart = halfSolve(
      root,
      sets.map((set) => ((set >> part) & 1 ? chances[set]! : 0)),
    );
    return Math.max(0, dot(ofPart, ofPart) - dot(ofPart, ofSum) ** 2 / dot(ofSum, ofSum));
  });
}

/** Lower triangle L of a positive definite matrix, L Lᵀ. */
function choleskyRoot(matrix: readonly Float64Array[]): readonly Float64Array[] {
  const root = matrix.map(({ length }) => new Float64Array(length));
  matrix.forEach((line, row) => {
    for (let column = 0; column <= row; column += 1) {
      let rest = line[column]!;
      for (let k = 0; k < column; k += 1) rest -= root[row]![k]! * root[column]![k]!;
      root[row]![column] = row === column ? Math.sqrt(rest) : rest / root[column]![column]!;
    }
  });
  return root;
}

/** x of L x = right. */
function halfSolve(root: readonly Float64Array[], right: readonly number[]): readonly number[] {
  const solution: number[] = [];
  root.forEach((line, row) => {
    let rest = right[row]!;
    for (let k = 0; k < row; k += 1) rest -= line[k]! * solution[k]!;
    solution.push(rest / line[row]!);
  });
  return solution;
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a.reduce((sum, value, at) => sum + value * b[at]!, 0);
}

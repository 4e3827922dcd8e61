/** The masses of a hypergeometric distribution over its whole support, which starts at `first`. */
export interface HypergeometricMasses {
  readonly first: number;
  readonly masses: readonly number[];
}

/**
 * All masses of the hypergeometric distribution: of `drawn` items taken without return from `marked` + `unmarked`, how
 * many are marked.
 *
 * By the ratio of neighbours outward from the mode, then scaled to sum 1, so nothing overflows and the relative error
 * stays near 1e-15 per step. Source: the ratio follows from NIST DLMF 26.3 (binomial coefficients). Cost: O(support).
 */
export function hypergeometricMasses(marked: number, unmarked: number, drawn: number): HypergeometricMasses {
  const first = Math.max(0, drawn - unmarked);
  const last = Math.min(drawn, marked);
  const mode = Math.min(last, Math.floor(((drawn + 1) * (marked + 1)) / (marked + unmarked + 2)));
  const below: number[] = [];
  for (let k = mode, mass = 1; k > first; k--) {
    mass *= (k * (unmarked - drawn + k)) / ((marked - k + 1) * (drawn - k + 1));
    below.push(mass);
  }
  const above: number[] = [];
  for (let k = mode, mass = 1; k < last; k++) {
    mass *= ((marked - k) * (drawn - k)) / ((k + 1) * (unmarked - drawn + k + 1));
    above.push(mass);
  }
  const relative = [...below.reverse(), 1, ...above];
  const total = relative.reduce((sum, mass) => sum + mass, 0);
  return { first, masses: relative.map((mass) => mass / total) };
}

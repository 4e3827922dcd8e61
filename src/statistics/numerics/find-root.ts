/**
 * Root of a continuous function between two points at which its signs differ.
 *
 * Inverse quadratic interpolation where it is safe, else bisection, so it is as sure as bisection and needs far fewer
 * steps. Ends when the bracket is a few units in the last place wide.
 *
 * Source: Chandrupatla 1997, Advances in Engineering Software 28:145-149.
 * Cost: some 10 calls of `f` where it is smooth, some 60 at worst over an ordinary bracket.
 *
 * @throws Error when `f` has the same sign at both ends, or is NaN there.
 */
export function findRoot(f: (x: number) => number, lower: number, upper: number): number {
  let [a, fa] = [upper, f(upper)];
  let [b, fb] = [lower, f(lower)];
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa < 0 !== fb < 0) || Number.isNaN(fa + fb)) {
    throw new Error(`no sign change between ${String(lower)} and ${String(upper)}`);
  }
  let share = 0.5;
  for (;;) {
    const x = a + share * (b - a);
    const fx = f(x);
    let [c, fc] = [a, fa];
    if (fx > 0 !== fa > 0) {
      [c, fc] = [b, fb];
      [b, fb] = [a, fa];
    }
    [a, fa] = [x, fx];
    const [best, fBest] = Math.abs(fa) < Math.abs(fb) ? [a, fa] : [b, fb];
    const tolerance = (2 * Number.EPSILON * Math.abs(best) + Number.MIN_VALUE) / Math.abs(b - a);
    if (fBest === 0 || tolerance > 0.5) return best;
    const xi = (a - b) / (c - b);
    const phi = (fa - fb) / (fc - fb);
    const interpolates = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
    share = interpolates
      ? (fa / (fb - fa)) * (fc / (fb - fc)) + ((c - a) / (b - a)) * (fa / (fc - fa)) * (fb / (fc - fb))
      : 0.5;
    share = Math.min(1 - tolerance, Math.max(tolerance, share));
  }
}

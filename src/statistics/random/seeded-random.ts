/** Uniform numbers from 0 to below 1, the same on every machine for the same seed. */
export type Uniform = () => number;

/**
 * A small counter generator of 32 bits, enough for Monte Carlo work and nothing else: the finaliser of MurmurHash3 (public domain; constants from
 * memory) over a Weyl sequence.
 * @param seed - any whole number
 */
export function seededUniform(seed: number): Uniform {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let mixed = state;
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b);
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35);
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32;
  };
}

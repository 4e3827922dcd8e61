/**
 * The SI prefixes and their powers of ten, in full.
 * Source: BIPM, The International System of Units, 9th edition (2019, updated 2022), table 7.
 */
export const SI_PREFIXES: ReadonlyMap<string, number> = new Map([
  ['Q', 30], ['R', 27], ['Y', 24], ['Z', 21], ['E', 18], ['P', 15], ['T', 12], ['G', 9], ['M', 6], ['k', 3], ['h', 2], ['da', 1],
  ['d', -1], ['c', -2], ['m', -3], ['µ', -6], ['n', -9], ['p', -12], ['f', -15], ['a', -18], ['z', -21], ['y', -24], ['r', -27], ['q', -30],
]); // prettier-ignore

const SYMBOLS: ReadonlyMap<number, string> = new Map([...SI_PREFIXES].map(([symbol, power]) => [power, symbol]));

/** The prefix symbol of a power of ten (`3` → `k`), empty for `0`. @throws where no prefix has that power. */
export function prefixSymbol(power: number): string {
  if (power === 0) return '';
  const symbol = SYMBOLS.get(power);
  if (symbol === undefined) throw new Error(`No SI prefix stands for 10^${power}.`);
  return symbol;
}

/** The largest prefix among … p n µ m – k M G … (powers divisible by three) that leaves a magnitude of at least one; `0` for zero. */
export function engineeringPrefix(value: number): number {
  const magnitude = Math.abs(value);
  if (magnitude === 0 || !Number.isFinite(magnitude)) return 0;
  const power = 3 * Math.floor(Math.log10(magnitude * (1 + Number.EPSILON)) / 3);
  return Math.max(-30, Math.min(30, power));
}

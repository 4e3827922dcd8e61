import { requireEnough, requireWhole } from '../numerics/guards.ts';

export interface ShareChart {
  /** All counts over all sizes. */
  readonly centre: number;
  readonly points: readonly {
    readonly share: number;
    readonly lower: number;
    readonly upper: number;
    /** Strictly beyond a limit. */
    readonly outside: boolean;
  }[];
}

/**
 * Control chart for shares (p chart), with limits of three standard deviations, each by its own sample size, cut at 0
 * and 1. Source: Shewhart 1931; NIST/SEMATECH e-Handbook 6.3.3.2. Cost: O(n).
 *
 * @param counts how many of each sample are nonconforming
 * @param sizes how large each sample is
 * @throws Error without samples, with lists of different length, or unless 0 <= count <= size are whole and size >= 1
 */
export function pChart(counts: ArrayLike<number>, sizes: ArrayLike<number>): ShareChart {
  requireEnough('p chart', counts.length, 1);
  if (counts.length !== sizes.length) {
    throw new Error(`p chart needs as many counts as sizes, got ${String(counts.length)} and ${String(sizes.length)}`);
  }
  const samples = Array.from(counts, (count, i) => ({ count, size: sizes[i]! }));
  for (const { count, size } of samples) {
    requireWhole('p chart', 'size', size, 1);
    requireWhole('p chart', 'count', count, 0);
    if (count > size) throw new Error(`p chart needs counts within sizes, got ${String(count)} of ${String(size)}`);
  }
  const centre = samples.reduce((sum, { count }) => sum + count, 0) / samples.reduce((sum, { size }) => sum + size, 0);
  const points = samples.map(({ count, size }) => {
    const share = count / size;
    const reach = 3 * Math.sqrt((centre * (1 - centre)) / size);
    const lower = Math.max(0, centre - reach);
    const upper = Math.min(1, centre + reach);
    return { share, lower, upper, outside: share < lower || share > upper };
  });
  return { centre, points };
}

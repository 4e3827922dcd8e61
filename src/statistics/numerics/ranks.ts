/** Sizes of the groups of equal values, groups of one included, in ascending order of value. Cost: O(n log n). */
export function tieSizes(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  const sizes: number[] = [];
  let start = 0;
  sorted.forEach((value, i) => {
    if (value === sorted[i + 1]) return;
    sizes.push(i + 1 - start);
    start = i + 1;
  });
  return sizes;
}

/** Rank of each value, from 1, equal values sharing their mean rank. Cost: O(n log n). */
export function midRanks(values: readonly number[]): number[] {
  const order = values.map((value, index) => ({ value, index })).sort((a, b) => a.value - b.value);
  const ranks = new Array<number>(values.length);
  let start = 0;
  for (const size of tieSizes(values)) {
    const shared = start + (size + 1) / 2;
    for (const { index } of order.slice(start, start + size)) ranks[index] = shared;
    start += size;
  }
  return ranks;
}

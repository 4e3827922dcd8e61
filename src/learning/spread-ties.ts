/**
 * Readings with those that tie spread evenly over their last digit, in ascending order. A meter rounds; without this, many readings of a normal
 * distribution would be told from one by their steps alone.
 * @param resolution - the step in which the readings come, in their unit; 0 leaves them as they are
 */
export function spreadTies(values: readonly number[], resolution: number): Float64Array {
  const sorted = Float64Array.from(values).sort();
  if (resolution === 0) return sorted;
  for (let start = 0; start < sorted.length;) {
    const value = sorted[start]!;
    let end = start + 1;
    while (end < sorted.length && sorted[end]! - value < resolution / 2) end += 1;
    for (let at = start; at < end; at += 1)
      sorted[at] = value + resolution * ((at - start + 0.5) / (end - start) - 0.5);
    start = end;
  }
  return sorted;
}

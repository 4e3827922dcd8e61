/** The positions in both ascending lists, ascending. Cost: O(a + b). */
export function intersection(a: readonly number[], b: readonly number[]): number[] {
  let next = 0;
  return a.filter((position) => {
    while ((b[next] ?? Infinity) < position) next += 1;
    return b[next] === position;
  });
}

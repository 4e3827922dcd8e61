/** A list of names that was met so many times. */
export interface Alike {
  readonly list: readonly string[];
  readonly count: number;
}

/**
 * Equal lists, each once with how often it was met, in the order in which they were first met. Lists are equal where they hold the same names in the
 * same order; those that are one and the same object are told without a look into them.
 */
export function countAlike(lists: Iterable<readonly string[]>): readonly Alike[] {
  const same = new Map<readonly string[], number>();
  for (const list of lists) same.set(list, (same.get(list) ?? 0) + 1);
  const alike = new Map<string, { readonly list: readonly string[]; count: number }>();
  for (const [list, count] of same) {
    const key = JSON.stringify(list);
    const known = alike.get(key);
    if (known) known.count += count;
    else alike.set(key, { list, count });
  }
  return [...alike.values()];
}

/** Gives one and the same object for equal lists, so that thousands of repairs share the few lists there are. */
export function shareAlike(): (list: readonly string[]) => readonly string[] {
  const lists = new Map<string, readonly string[]>();
  return (list) => {
    const key = JSON.stringify(list);
    const known = lists.get(key);
    if (known === undefined) lists.set(key, list);
    return known ?? list;
  };
}

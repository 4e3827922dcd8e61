import type { BenchData, Judged } from './bench-data.ts';

interface Remembered<Value> extends Pick<BenchData, 'repairs' | 'families'> {
  readonly value: Value;
}

/**
 * Finds something once for all that a bench's readings, verdicts, repairs and families are, and anew where one of them changed. What leaves them as they
 * are, such as a price or a view, leaves what was found.
 * @param find - may give something that is filled as it is asked for
 */
export function remembered<Value>(find: (judged: Judged) => Value): (judged: Judged) => Value {
  // Readings never change without being judged anew.
  const known = new WeakMap<Uint8Array, Remembered<Value>>();
  return (judged) => {
    const { repairs, families } = judged.data;
    const last = known.get(judged.verdicts);
    if (last?.repairs === repairs && last.families === families) return last.value;
    const value = find(judged);
    known.set(judged.verdicts, { repairs, families, value });
    return value;
  };
}

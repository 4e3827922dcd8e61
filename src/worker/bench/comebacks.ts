import type { Repair } from '../../domain/repair.ts';
import { firstComebacks } from '../../patterns/do-repairs-hold.ts';
import type { Judged } from './bench-data.ts';

const comebacks = new WeakMap<ReadonlyMap<string, Repair>, ReadonlyMap<string, number>>();

/** When the board of a repair first came back, in milliseconds, by the repair's id. */
export function comebacksOf({ data: { repairs } }: Judged): ReadonlyMap<string, number> {
  const known = comebacks.get(repairs) ?? firstComebacks(repairs.values());
  comebacks.set(repairs, known);
  return known;
}

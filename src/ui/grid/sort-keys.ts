import type { ReadingsQuery, SortField } from '../../session/answers.ts';

export type SortKeys = ReadingsQuery['sort'];

/**
 * The order after a column's header was chosen: ascending, then descending, then none. With `add` the other keys stay;
 * a new one goes behind them, as the one that weighs least.
 */
export function nextSort(keys: SortKeys, field: SortField, add: boolean): SortKeys {
  const present = keys.find((key) => key.field === field);
  const next =
    present === undefined ? { field, descending: false } : present.descending ? undefined : { field, descending: true };
  if (!add) return next === undefined ? [] : [next];
  if (present === undefined) return [...keys, { field, descending: false }];
  return keys.flatMap((key) => (key.field !== field ? [key] : next === undefined ? [] : [next]));
}

/** How a column weighs in the order: its direction, and its place where there are several keys. */
export function sortOf(
  keys: SortKeys,
  field: SortField | undefined,
): { descending: boolean; place: number } | undefined {
  const place = keys.findIndex((key) => key.field === field);
  const key = keys[place];
  return key === undefined ? undefined : { descending: key.descending, place: place + 1 };
}

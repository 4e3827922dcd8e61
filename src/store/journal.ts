import type { ReadingEdit } from '../domain/reading-edit.ts';
import {
  STATE_PARTS,
  type BenchState,
  type Change,
  type Edit,
  type EditNote,
  type StateItem,
  type StatePart,
} from './kept.ts';
import type { StoredEdit } from './schema.ts';
import { ITEM_SHAPES } from './state-shapes.ts';

/** What makes an item of each part the same item after a change; earlier bands are never changed, only added. */
const KEYS: { readonly [Part in StatePart]: (item: BenchState[Part][number]) => string } = {
  families: ({ name }) => name,
  bands: ({ family, point, mode, stage }) => JSON.stringify([family, point, mode, stage ?? '']),
  earlierBands: (band) => JSON.stringify(band),
  repairs: ({ id }) => id,
  meters: ({ name }) => name,
  maps: ({ header }) => header,
  names: ({ kind, family, name }) => JSON.stringify([kind, family ?? '', name]),
  overrules: ({ repair, rule }) => JSON.stringify([repair, rule]),
  edits: editKey,
  settings: () => 'settings',
  views: ({ name }) => name,
};

/** Keys of edits, which may hold very many changes and are compared at every change of anything. */
const editKeys = new WeakMap<ReadingEdit, string>();

function editKey(edit: ReadingEdit): string {
  // As it comes back from the store, whatever the order of its fields.
  const key = editKeys.get(edit) ?? JSON.stringify(ITEM_SHAPES.edits(edit, 'edit'));
  editKeys.set(edit, key);
  return key;
}

/** The changes that lead from one state to another, part by part; the order of items does not count. */
export function changesBetween(before: BenchState, after: BenchState): readonly Change[] {
  return STATE_PARTS.flatMap((part) =>
    before[part] === after[part] ? [] : partChanges(part, before[part], after[part]),
  );
}

/** The state with changes made to it, whatever else it holds by now; a changed item keeps its place, a new one comes last. */
export function applyChanges(state: BenchState, changes: readonly Change[]): BenchState {
  const parts = STATE_PARTS.map((part) => {
    const own = changes.filter((change) => change.part === part);
    if (own.length === 0) return [part, state[part]] as const;
    return [
      part,
      part === 'earlierBands' ? applyToHistory(state[part], own) : applyByKey(part, state[part], own),
    ] as const;
  });
  return withParts(state, Object.fromEntries(parts));
}

/** The changes that take `changes` back. */
export function reverseChanges(changes: readonly Change[]): readonly Change[] {
  return changes
    .map(({ part, old, new: added }) => ({ part, ...(added && { old: added }), ...(old && { new: old }) }))
    .reverse();
}

/** An entry of the journal as it is stored, without its generation. */
export function editOf(stored: StoredEdit): Edit {
  const edit = { ...stored };
  Reflect.deleteProperty(edit, 'generation');
  return edit;
}

/** An entry with the reason why it was made; an empty text takes the reason away. */
export function withReason<Entry extends EditNote>(entry: Entry, why: string): Entry {
  const explained = { ...entry, why };
  if (why === '') Reflect.deleteProperty(explained, 'why');
  return explained;
}

/** The state with the parts given, the rest as in `base`. */
export function withParts(base: BenchState, given: Partial<BenchState>): BenchState {
  const all = { ...base, ...given };
  const { families, bands, earlierBands, repairs, meters, maps, names, overrules, edits, settings, views } = all;
  return { families, bands, earlierBands, repairs, meters, maps, names, overrules, edits, settings, views };
}

function keyOf(part: StatePart, item: StateItem): string {
  return (KEYS[part] as (item: StateItem) => string)(item);
}

function partChanges(part: StatePart, before: readonly StateItem[], after: readonly StateItem[]): Change[] {
  if (part === 'earlierBands') return historyChanges(before, after);
  const earlier = new Map(before.map((item) => [keyOf(part, item), item]));
  const later = new Map(after.map((item) => [keyOf(part, item), item]));
  const changes: Change[] = [];
  for (const [key, old] of earlier) if (!later.has(key)) changes.push({ part, old });
  for (const [key, item] of later) {
    const old = earlier.get(key);
    if (old === undefined) changes.push({ part, new: item });
    else if (part !== 'edits' && !isSame(old, item)) changes.push({ part, old, new: item });
  }
  return changes;
}

/** A list that only grows: what stands behind the common beginning was taken away, the last first, or added. */
function historyChanges(before: readonly StateItem[], after: readonly StateItem[]): Change[] {
  const differs = before.findIndex((item, index) => !isSame(item, after[index]));
  const common = differs < 0 ? before.length : differs;
  return [
    ...before
      .slice(common)
      .reverse()
      .map((old): Change => ({ part: 'earlierBands', old })),
    ...after.slice(common).map((item): Change => ({ part: 'earlierBands', new: item })),
  ];
}

function applyByKey(part: StatePart, items: readonly StateItem[], changes: readonly Change[]): readonly StateItem[] {
  const byKey = new Map(items.map((item) => [keyOf(part, item), item]));
  for (const { old, new: added } of changes) {
    if (added !== undefined) byKey.set(keyOf(part, added), added);
    else if (old !== undefined) byKey.delete(keyOf(part, old));
  }
  return [...byKey.values()];
}

function applyToHistory(items: readonly StateItem[], changes: readonly Change[]): readonly StateItem[] {
  const result = [...items];
  for (const { old, new: added } of changes) {
    const gone = old === undefined ? -1 : result.findLastIndex((item) => isSame(item, old));
    if (gone >= 0) result.splice(gone, 1);
    if (added !== undefined) result.push(added);
  }
  return result;
}

function isSame(one: StateItem | undefined, other: StateItem | undefined): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}

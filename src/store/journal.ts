import { changedSettings, NO_SETTINGS, settingsChanges, type BenchSettings } from '../domain/bench-settings.ts';
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
    if (part === 'earlierBands') return [part, applyToHistory(state[part], own)] as const;
    if (part === 'settings') return [part, applyToSettings(state[part], own)] as const;
    return [part, applyByKey(part, state[part], own)] as const;
  });
  return withParts(state, Object.fromEntries(parts));
}

/** Parts whose items are whole things that somebody looked at before changing them. */
const LOOKED_AT: ReadonlySet<StatePart> = new Set([
  'families', 'bands', 'repairs', 'meters', 'names', 'overrules', 'views',
]); // prettier-ignore

/** The first of some changes whose item is neither as it was before the change nor as it is after it; undefined where there is none. */
export function firstOutdated(state: BenchState, changes: readonly Change[]): StateItem | undefined {
  for (const { part, old, new: added } of changes) {
    if (!LOOKED_AT.has(part)) continue;
    const item = old ?? added;
    const key = item && keyOf(part, item);
    const stored = (state[part] as readonly StateItem[]).find((one) => keyOf(part, one) === key);
    const isAny = (one: StateItem | undefined): boolean => isSame(asStored(part, one), asStored(part, stored));
    if (!isAny(old) && !isAny(added)) return stored ?? item;
  }
  return undefined;
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

/** Settings are one item of many that do not depend on each other: each that differs between old and new is changed alone. */
function applyToSettings(
  [stored = NO_SETTINGS]: BenchState['settings'],
  changes: readonly Change[],
): BenchState['settings'] {
  const settings = changes.reduce((present, change) => {
    const { old = NO_SETTINGS, new: added = NO_SETTINGS } = change as { old?: BenchSettings; new?: BenchSettings };
    return changedSettings(present, settingsChanges(old, added));
  }, stored);
  return isSame(settings, NO_SETTINGS) ? [] : [settings];
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

/** An item as it comes back from the store, whatever the order of its fields. */
function asStored(part: StatePart, item: StateItem | undefined): StateItem | undefined {
  return item && ITEM_SHAPES[part](item, part);
}

function isSame(one: StateItem | undefined, other: StateItem | undefined): boolean {
  return one === other || JSON.stringify(one) === JSON.stringify(other);
}

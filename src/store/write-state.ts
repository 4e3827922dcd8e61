import { generationKeys, refuseOtherGeneration } from './generation.ts';
import { applyChanges, firstOutdated, withParts } from './journal.ts';
import { EMPTY_STATE, STATE_PARTS, type BenchState, type Change, type EditNote, type StateItem, type StatePart } from './kept.ts'; // prettier-ignore
import type { ReadTransaction, WriteTransaction } from './schema.ts';
import { ITEM_SHAPES } from './state-shapes.ts';
import { StoreError } from './store-error.ts';

/** What was read of a state, and how many items of each part were damaged and left out. */
export interface ReadState {
  readonly state: BenchState;
  readonly damaged: ReadonlyMap<StatePart, number>;
}

/** Reads parts of a generation's state; items that are not what they must be are left out and counted. */
export async function readState(
  transaction: ReadTransaction,
  generation: number,
  parts: Iterable<StatePart> = STATE_PARTS,
): Promise<ReadState> {
  const damaged = new Map<StatePart, number>();
  const given: Partial<Record<StatePart, readonly StateItem[]>> = {};
  for (const part of parts) {
    const stored = await transaction.objectStore('state').get([generation, part]);
    const items: readonly unknown[] = stored?.items ?? [];
    const sound = soundItems(part, items);
    given[part] = sound;
    if (sound.length < items.length) damaged.set(part, items.length - sound.length);
  }
  return { state: withParts(EMPTY_STATE, given as Partial<BenchState>), damaged };
}

/**
 * Makes changes to the state as it is stored, whatever else another tab has changed since, with one entry in the journal.
 * @returns the number of that entry; undefined where nothing changed
 * @throws StoreError where another tab has changed one of these very items: nothing is written over unseen
 */
export async function writeChanges(
  transaction: WriteTransaction,
  generation: number,
  changes: readonly Change[],
  note: EditNote & { readonly at: number },
): Promise<number | undefined> {
  await refuseOtherGeneration(transaction, generation);
  if (changes.length === 0) return undefined;
  const parts = new Set(changes.map(({ part }) => part));
  const stored = (await readState(transaction, generation, parts)).state;
  const outdated = firstOutdated(stored, changes);
  if (outdated !== undefined) throw new StoreError('outdated', outdatedSentence(outdated));
  const state = applyChanges(stored, changes);
  for (const part of parts) await transaction.objectStore('state').put({ generation, part, items: state[part] });
  const step = (await lastStep(transaction, generation)) + 1;
  await transaction.objectStore('journal').add({ generation, step, ...note, changes });
  return step;
}

/** The number of the journal's last entry, 0 where there is none. */
export async function lastStep(transaction: ReadTransaction, generation: number): Promise<number> {
  const cursor = await transaction.objectStore('journal').openKeyCursor(generationKeys(generation), 'prev');
  return cursor?.primaryKey[1] ?? 0;
}

/** Says what was changed elsewhere, by what it is called. */
function outdatedSentence(item: StateItem): string {
  const told = (['name', 'id', 'repair', 'point'] as const).map((field): unknown => Reflect.get(item, field));
  const name = told.find((one) => typeof one === 'string') ?? 'This';
  return `${name} was changed in another tab meanwhile, so this change was not made. Look at it as it is now, then change it again.`;
}

function soundItems(part: StatePart, items: readonly unknown[]): readonly StateItem[] {
  return items.flatMap((item) => {
    try {
      return [ITEM_SHAPES[part](item, part)];
    } catch {
      return [];
    }
  });
}

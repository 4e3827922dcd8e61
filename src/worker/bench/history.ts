import { changesBetween, withReason } from '../../store/journal.ts';
import type { Change, Edit, StatePart } from '../../store/kept.ts';
import type { BenchData } from './bench-data.ts';
import { stateOf } from './keeping.ts';

/** Parts that are changed by hand one item at a time, and whose changes are taken back by `undo`. */
const BY_HAND: ReadonlySet<StatePart> = new Set([
  'families',
  'bands',
  'earlierBands',
  'repairs',
  'meters',
  'overrules',
  'settings',
  'views',
]);

/** All changes of a bench but those of readings, and which of them can be taken back or done again. */
export class History {
  readonly entries: Edit[] = [];
  readonly #done: Edit[] = [];
  readonly #undone: Edit[] = [];

  /** @param journal - oldest entry first */
  constructor(journal: readonly Edit[] = []) {
    for (const edit of journal) {
      const changes = edit.changes.filter(({ part }) => part !== 'edits' && part !== 'maps');
      if (changes.length > 0) this.take({ ...edit, changes });
    }
  }

  /** The change that would be taken back next. */
  get undo(): Edit | undefined {
    return this.#done.at(-1);
  }

  /** The change that would be done again next. */
  get redo(): Edit | undefined {
    return this.#undone.at(-1);
  }

  /** Adds an entry that was made after all others. */
  take(edit: Edit): void {
    this.entries.push(edit);
    const { undoes, redoes, file, changes } = edit;
    if (undoes !== undefined) move(undoes, this.#done, this.#undone);
    else if (redoes !== undefined) move(redoes, this.#undone, this.#done);
    else if (file === undefined && changes.every(({ part }) => BY_HAND.has(part))) {
      this.#done.push(edit);
      this.#undone.length = 0;
    } else if (changes.some(({ part }) => BY_HAND.has(part))) {
      // What a file brought lies over all that was changed before.
      this.#done.length = 0;
      this.#undone.length = 0;
    }
  }

  /** Says why an entry was made; an empty text takes that back. */
  explain(step: number, why: string): void {
    for (const list of [this.entries, this.#done, this.#undone]) {
      const at = list.findIndex((edit) => edit.step === step);
      const found = list[at];
      if (found !== undefined) list[at] = withReason(found, why);
    }
  }
}

/** What a change of the bench changes of all that is not readings. */
export function historyChanges(before: BenchData, after: BenchData): readonly Change[] {
  if (PARTS.every((part) => before[part] === after[part])) return [];
  const stated = (data: BenchData) => ({ ...stateOf(data), edits: [], maps: [] });
  return changesBetween(stated(before), stated(after));
}

/** What of a bench such changes are of. */
const PARTS = ['families', 'bands', 'earlierBands', 'repairs', 'meters', 'overrules', 'settings', 'views', 'aliases'] as const; // prettier-ignore

/** Puts the entry of a number from one list on the end of another. */
function move(step: number, from: Edit[], to: Edit[]): void {
  const at = from.findLastIndex((edit) => edit.step === step);
  if (at >= 0) to.push(...from.splice(at, 1));
}

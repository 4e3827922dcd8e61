import type { BenchDatabase } from './bench-database.ts';
import type { BegunNote, ReadTransaction, WriteTransaction } from './schema.ts';
import type { TabChannel } from './tab-channel.ts';

/**
 * Notes of files that are being brought in, on the disk before the first of them is read. A note goes with the last of its files that is kept, or with
 * the end of their tab's work on them; one whose tab is gone tells of an interruption. Its tab holds a lock as long as it lives: without locks nothing
 * is noted, for nobody could tell.
 */
export class BegunImports {
  readonly #database: BenchDatabase;
  readonly #channel: TabChannel;
  /** The note of this tab, and what lets go of its lock. */
  #own: { readonly key: BegunNote['key']; readonly release: () => void } | undefined;

  constructor(database: BenchDatabase, channel: TabChannel) {
    this.#database = database;
    this.#channel = channel;
  }

  /** Notes files; what this tab had noted before has ended. Where the note cannot be written, nothing is told of an interruption. */
  async begin(files: readonly string[]): Promise<void> {
    await this.end();
    const manager = locks();
    if (manager === undefined || files.length === 0) return;
    const key = `begun ${crypto.randomUUID()}` as const;
    const release = await held(manager, this.#lockName(key));
    this.#own = { key, release };
    try {
      await this.#database.write('strict', (transaction) =>
        transaction.objectStore('about').put({ key, files, kept: 0 }),
      );
      this.#channel.tell({ kind: 'begun' });
    } catch {
      release();
      this.#own = undefined;
    }
  }

  /** Takes the note of this tab away. Where that fails it stays, and its files are told of as interrupted. */
  async end(): Promise<void> {
    const own = this.#own;
    if (own === undefined) return;
    this.#own = undefined;
    try {
      await this.#database.write('relaxed', (transaction) => transaction.objectStore('about').delete(own.key));
    } catch {
      // The storage that refuses this is told of by the import itself.
    }
    own.release();
    this.#channel.tell({ kind: 'begun' });
  }

  /** Counts one of this tab's files as kept, in the transaction that completes it. */
  async count(transaction: WriteTransaction): Promise<void> {
    if (this.#own === undefined) return;
    const about = transaction.objectStore('about');
    const note = await about.get(this.#own.key);
    if (note === undefined || !('files' in note)) return;
    const kept = note.kept + 1;
    await (kept < note.files.length ? about.put({ ...note, kept }) : about.delete(note.key));
  }

  /** Files that other tabs are bringing in. */
  async elsewhere(): Promise<readonly string[]> {
    const { living } = await this.#others();
    return living.flatMap(({ files }) => files);
  }

  /** What became of files whose tab is gone, each a sentence that is told once. */
  async takeBrokenOff(): Promise<readonly string[]> {
    const { gone } = await this.#others();
    if (gone.length === 0) return [];
    const forget = async (transaction: WriteTransaction): Promise<void> => {
      for (const { key } of gone) await transaction.objectStore('about').delete(key);
    };
    // Where they cannot be deleted, they are told of once more.
    await this.#database.write('relaxed', forget).catch(() => undefined);
    return gone.map(sentenceOf);
  }

  async #others(): Promise<{ readonly living: readonly BegunNote[]; readonly gone: readonly BegunNote[] }> {
    const notes = (await this.#database.read(begunNotes)).filter(({ key }) => key !== this.#own?.key);
    const { held: taken = [] } = (await locks()?.query()) ?? {};
    const names = new Set(taken.map(({ name }) => name));
    const isLiving = ({ key }: BegunNote): boolean => names.has(this.#lockName(key));
    return { living: notes.filter(isLiving), gone: notes.filter((note) => !isLiving(note)) };
  }

  #lockName(key: BegunNote['key']): string {
    return `${this.#database.name} ${key}`;
  }
}

/** All notes, those of tabs that are gone among them. */
export async function begunNotes(transaction: ReadTransaction): Promise<readonly BegunNote[]> {
  // A space follows the word in each key.
  const found = await transaction.objectStore('about').getAll(IDBKeyRange.bound('begun ', 'begun!', false, true));
  return found.filter((record): record is BegunNote => 'files' in record);
}

/** Takes a lock that is free. @returns lets go of it */
function held(manager: LockManager, name: string): Promise<() => void> {
  return new Promise((resolve) => {
    void manager.request(name, () => new Promise<void>((release) => { resolve(release); })); // prettier-ignore
  });
}

function sentenceOf({ files, kept }: BegunNote): string {
  const it = files.length === 1 ? 'it' : 'them';
  const left = kept === 0 ? `nothing of ${it} was kept` : `${kept} of the ${files.length} files were kept`;
  return `Bringing in ${files.join(', ')} was interrupted: ${left}. Bring ${it} in again.`;
}

function locks(): LockManager | undefined {
  return (navigator as { readonly locks?: LockManager }).locks;
}

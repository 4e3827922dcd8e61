import type { Ledger } from '../worker/contract/memory.ts';
import type { TextStorage } from './ledger-copy.ts';

/** Notes files while they are brought in: where the tab does not live to the end, the next one knows of it. */
export interface BegunImports {
  /** @param imports - how many the bench held before. @returns takes the note away */
  readonly begin: (files: readonly string[], imports: number) => () => void;
  /** Files that other tabs are bringing in. */
  readonly elsewhere: () => Promise<readonly string[]>;
  /** What became of files whose tab is gone, each a sentence that is told once. */
  readonly takeBrokenOff: (ledger: Ledger | undefined) => Promise<readonly string[]>;
}

interface Note {
  readonly files: readonly string[];
  readonly imports: number;
}

const NAME = 'benchtally begun';

/**
 * Notes in the browser's text storage, each with a lock that its tab holds as long as it lives.
 * @param locks - without them nothing is noted, for nobody could tell whether a tab still lives
 */
export function begunImportsIn(storage: TextStorage, locks: LockManager | undefined): BegunImports {
  const read = (): Map<string, Note> => {
    try {
      const found = JSON.parse(storage.getItem(NAME) ?? '[]') as unknown;
      return new Map(Array.isArray(found) ? (found as unknown[]).filter(isEntry) : []);
    } catch {
      return new Map();
    }
  };
  const write = (notes: ReadonlyMap<string, Note>): void => {
    try {
      storage.setItem(NAME, JSON.stringify([...notes]));
    } catch {
      // Without the note an interruption is not told of; the bench itself is kept elsewhere.
    }
  };
  const remove = (id: string): void => {
    write(new Map([...read()].filter(([one]) => one !== id)));
  };

  /** Notes of this tab. */
  const own = new Set<string>();

  return {
    begin: (files, imports) => {
      if (locks === undefined) return () => undefined;
      const id = crypto.randomUUID();
      own.add(id);
      const ended = new AbortController();
      void locks.request(lockName(id), async () => {
        if (ended.signal.aborted) return;
        write(read().set(id, { files, imports }));
        await new Promise((resolve) => {
          ended.signal.addEventListener('abort', resolve);
        });
        remove(id);
      });
      return () => {
        ended.abort();
      };
    },
    elsewhere: async () => {
      const found = await Promise.all(
        [...read()].map(async ([id, { files }]) => {
          const isGone =
            own.has(id) || (await locks?.request(lockName(id), { ifAvailable: true }, (lock) => lock !== null));
          return isGone === false ? files : [];
        }),
      );
      return found.flat();
    },
    takeBrokenOff: async (ledger) => {
      const sentences: string[] = [];
      for (const [id, note] of read()) {
        const isGone = await locks?.request(lockName(id), { ifAvailable: true }, (lock) => lock !== null);
        if (isGone !== true) continue;
        remove(id);
        const kept = (ledger?.imports.length ?? 0) - note.imports;
        if (kept < note.files.length) sentences.push(sentenceOf(note.files, Math.max(0, kept)));
      }
      return sentences;
    },
  };
}

function sentenceOf(files: readonly string[], kept: number): string {
  const it = files.length === 1 ? 'it' : 'them';
  const left = kept === 0 ? `nothing of ${it} was kept` : `${kept} of the ${files.length} files were kept`;
  return `Bringing in ${files.join(', ')} was interrupted: ${left}. Bring ${it} in again.`;
}

function lockName(id: string): string {
  return `${NAME} ${id}`;
}

function isEntry(found: unknown): found is [string, Note] {
  if (!Array.isArray(found) || found.length !== 2 || typeof found[0] !== 'string') return false;
  const { files, imports } = (found[1] ?? {}) as Partial<Note>;
  return Array.isArray(files) && files.every((file) => typeof file === 'string') && typeof imports === 'number';
}

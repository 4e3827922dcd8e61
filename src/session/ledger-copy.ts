import type { Ledger } from '../worker/contract/memory.ts';

/** Where a copy of the ledger lies, apart from what it tells of: what the browser loses, the copy still knows. */
export interface LedgerCopy {
  readonly read: () => Ledger | undefined;
  readonly write: (ledger: Ledger) => void;
}

/** A part of the browser's storage that holds texts under names. */
export interface TextStorage {
  getItem(name: string): string | null;
  setItem(name: string, text: string): void;
}

const NAME = 'benchtally ledger';

/** A copy in the browser's text storage. A text that is no ledger counts as none; a storage that refuses keeps none. */
export function ledgerCopyIn(storage: TextStorage): LedgerCopy {
  return {
    read: () => {
      try {
        const found: unknown = JSON.parse(storage.getItem(NAME) ?? 'null');
        return isLedger(found) ? found : undefined;
      } catch {
        return undefined;
      }
    },
    write: (ledger) => {
      try {
        storage.setItem(NAME, JSON.stringify(ledger));
      } catch {
        // Without the copy a loss is noticed later; the bench itself is kept elsewhere.
      }
    },
  };
}

function isLedger(found: unknown): found is Ledger {
  if (typeof found !== 'object' || found === null) return false;
  const { database, generation, imports, edits } = found as Partial<Ledger>;
  const isLine = (line: unknown): boolean =>
    typeof line === 'object' && line !== null && typeof (line as { hash?: unknown }).hash === 'string';
  return (
    typeof database === 'string' &&
    typeof generation === 'number' &&
    typeof edits === 'number' &&
    Array.isArray(imports) &&
    imports.every(isLine)
  );
}

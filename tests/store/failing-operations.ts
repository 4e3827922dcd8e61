type Patch = readonly [prototype: object, method: string];

/** The operations of the browser's storage that can fail. */
const OPERATIONS: readonly Patch[] = [
  [IDBObjectStore.prototype, 'put'],
  [IDBObjectStore.prototype, 'add'],
  [IDBObjectStore.prototype, 'delete'],
  [IDBObjectStore.prototype, 'clear'],
  [IDBObjectStore.prototype, 'get'],
  [IDBTransaction.prototype, 'commit'],
  [IDBDatabase.prototype, 'transaction'],
];

/** How operation number `nth` fails: by throwing, or by an abort of its whole transaction as on a full disk. */
export interface Failing {
  readonly nth: number;
  readonly how: 'throws' | 'aborts';
  /** Whether all operations after it fail as well. */
  readonly persistent: boolean;
}

/**
 * Runs `work` while the storage fails as told.
 * @returns whether an operation failed; `work`'s own failure is swallowed then
 */
export async function whileFailing({ nth, how, persistent }: Failing, work: () => Promise<unknown>): Promise<boolean> {
  let count = 0;
  const outcome = { failed: false };
  const originals = OPERATIONS.map(([prototype, method]) => Object.getOwnPropertyDescriptor(prototype, method)!);
  OPERATIONS.forEach(([prototype, method], index) => {
    const original = originals[index]!.value as (...args: unknown[]) => unknown;
    Object.defineProperty(prototype, method, {
      configurable: true,
      writable: true,
      value(this: unknown, ...args: unknown[]): unknown {
        count += 1;
        if (count !== nth && !(persistent && count > nth)) return original.apply(this, args);
        outcome.failed = true;
        if (how === 'throws' || this instanceof IDBDatabase) throw new DOMException('Planted fault', 'UnknownError');
        if (this instanceof IDBTransaction) {
          this.abort();
          return undefined;
        }
        const result = original.apply(this, args);
        (this as IDBObjectStore).transaction.abort();
        return result;
      },
    });
  });
  try {
    await work();
  } catch (cause) {
    if (!outcome.failed) throw cause;
  } finally {
    OPERATIONS.forEach(([prototype, method], index) => {
      Object.defineProperty(prototype, method, originals[index]!);
    });
  }
  return outcome.failed;
}

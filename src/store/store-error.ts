/** Why something could not be kept or read. */
export type StoreFault =
  | 'no storage'
  | 'full'
  | 'lost'
  | 'closed'
  | 'newer'
  | 'foreign'
  | 'damaged'
  | 'replaced'
  | 'taken over'
  | 'cancelled'
  | 'refused'
  | 'outdated'
  | 'failed';

/** A fault of the store; its message is a sentence for the technician. */
export class StoreError extends Error {
  override readonly name = 'StoreError';
  readonly fault: StoreFault;

  constructor(fault: StoreFault, sentence: string, cause?: unknown) {
    super(sentence, { cause });
    this.fault = fault;
  }
}

const DISK_FULL = /NO_SPACE|full disk|disk full/i;

/** The sentence for whatever the browser threw; a StoreError stays as it is. */
export function toStoreError(cause: unknown): StoreError {
  if (cause instanceof StoreError) return cause;
  const { name, message } = cause instanceof Error ? cause : new Error(String(cause));
  if (DISK_FULL.test(message)) {
    return new StoreError(
      'full',
      'The disk is full: nothing of this was kept, and what was kept before is at risk. Save a backup now, then make room.',
      cause,
    );
  }
  switch (name) {
    case 'QuotaExceededError':
      return new StoreError(
        'full',
        'The browser gives this page no more room: nothing of this was kept. Make room on the disk, then try again.',
        cause,
      );
    case 'VersionError':
      return new StoreError('newer', 'A newer version of this page has used the storage: reload this page.', cause);
    case 'InvalidStateError':
      return new StoreError('closed', 'The storage was closed: reload this page.', cause);
    case 'SecurityError':
      return new StoreError('no storage', 'The browser refuses this page its storage: nothing will be kept.', cause);
    default:
      return new StoreError('failed', `The browser could not do this (${message}): nothing of it was kept.`, cause);
  }
}

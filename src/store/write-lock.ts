import { StoreError } from './store-error.ts';
import type { TabChannel } from './tab-channel.ts';

/** How the lock for long writes is held and waited for; times in milliseconds. */
export interface LockManners {
  /** How often the holder says that it is alive. */
  readonly heartbeat: number;
  /** After how long without a sign of life a waiting tab may take the lock over: a frozen tab keeps it for ever. */
  readonly silence: number;
  /** Told after that time, with the means to take over; without it that happens at once. */
  readonly onSilent?: (sentence: string, takeOver: () => void) => void;
  /** Told once where another tab holds the lock, and again when it says what it is doing. */
  readonly onWaiting?: (sentence: string) => void;
}

export const LOCK_MANNERS: LockManners = { heartbeat: 2_000, silence: 30_000 };

/** Runs `work` where no tab holds the lock just now, holding it meanwhile; else does nothing. */
export async function ifUnlocked<Result>(database: string, work: () => Promise<Result>): Promise<Result | undefined> {
  const manager = locks();
  if (manager === undefined) return work();
  return manager.request(lockName(database), { ifAvailable: true }, (lock) => (lock === null ? undefined : work()));
}

/** Runs `work` while no other tab writes the chosen backup file. */
export async function withFileLock<Result>(database: string, work: () => Promise<Result>): Promise<Result> {
  const manager = locks();
  return manager === undefined ? work() : manager.request(`${database} backup file`, work);
}

/**
 * Runs `work` while no other tab runs such work on this database.
 * @param what - what is done, for the sentence that other tabs show: "storing shift.csv"
 * @param signal - ends the waiting
 * @param work - is given a signal that is aborted where another tab takes the lock over or `signal` is
 * @throws StoreError where it was cancelled or taken over; else as `work`
 */
export async function withWriteLock<Result>(
  database: string,
  what: string,
  channel: TabChannel,
  manners: LockManners,
  signal: AbortSignal,
  work: (signal: AbortSignal) => Promise<Result>,
): Promise<Result> {
  const manager = locks();
  if (manager === undefined) return work(signal);
  const robbed = new AbortController();
  const turn = { held: false };
  const hold = async (): Promise<Result> => {
    turn.held = true;
    const sign = (): void => { channel.tell({ kind: 'busy', what }); }; // prettier-ignore
    sign();
    const pulse = setInterval(sign, manners.heartbeat);
    try {
      return await work(AbortSignal.any([signal, robbed.signal]));
    } finally {
      clearInterval(pulse);
    }
  };
  try {
    return await waitTurn(manager, lockName(database), channel, manners, signal, hold);
  } catch (cause) {
    if (signal.aborted) throw new StoreError('cancelled', 'Storing was cancelled: nothing of it was kept.', cause);
    if (!turn.held || !(cause instanceof DOMException) || cause.name !== 'AbortError') throw cause;
    const error = new StoreError('taken over', `Another tab has taken over while this one was ${what}.`, cause);
    robbed.abort(error);
    throw error;
  }
}

async function waitTurn<Result>(
  manager: LockManager,
  name: string,
  channel: TabChannel,
  { silence, onWaiting, onSilent }: LockManners,
  signal: AbortSignal,
  hold: () => Promise<Result>,
): Promise<Result> {
  const free = Symbol('free');
  const first = await manager.request(name, { ifAvailable: true }, (lock) => (lock === null ? free : hold()));
  if (first !== free) return first;
  onWaiting?.('Another tab is storing something: this one waits.');
  const waiting = new AbortController();
  let timer: ReturnType<typeof setTimeout> | undefined;
  const listen = (): void => {
    clearTimeout(timer);
    timer = setTimeout(silent, silence);
  };
  const takeOver = (): void => { waiting.abort(); }; // prettier-ignore
  const silent = (): void => {
    if (onSilent === undefined) takeOver();
    else onSilent(`Another tab is storing something and has given no sign of life for ${Math.round(silence / 1000)} seconds: this one waits.`, takeOver); // prettier-ignore
  };
  listen();
  const unlisten = channel.listen((news) => {
    if (news.kind !== 'busy') return;
    onWaiting?.(`Another tab is ${news.what}: this one waits.`);
    listen();
  });
  const turn = { granted: false };
  const take = (): Promise<Result> => {
    turn.granted = true;
    clearTimeout(timer);
    unlisten();
    return hold();
  };
  try {
    return await manager.request(name, { signal: AbortSignal.any([signal, waiting.signal]) }, take);
  } catch (cause) {
    if (turn.granted || signal.aborted) throw cause;
    return await manager.request(name, { steal: true }, take);
  } finally {
    clearTimeout(timer);
    unlisten();
  }
}

function lockName(database: string): string {
  return `${database} writes`;
}

function locks(): LockManager | undefined {
  return (navigator as { readonly locks?: LockManager }).locks;
}

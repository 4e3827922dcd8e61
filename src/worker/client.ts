import type { BenchCalls, CallName, ProgressOf } from './contract/calls.ts';
import type { FromWorker, ToWorker, WorkerNews } from './contract/messages.ts';
import { startBenchWorker } from './start.ts';

export { startBenchWorker };

/** How long a worker may take to say that it is there, in milliseconds. */
const START_LIMIT = 20_000;

/** A call that ended because its caller asked for it. */
export class CallCancelled extends Error {
  override name = 'CallCancelled';
}

/** A call that got no answer because the worker stopped; what the worker held is gone with it. */
export class WorkerLost extends Error {
  override name = 'WorkerLost';
}

export interface CallOptions<Progress> {
  /** Asks the worker to stop; the call then ends with `CallCancelled`. */
  readonly signal?: AbortSignal;
  readonly onProgress?: (progress: Progress) => void;
}

/** The page's side of the contract. */
export interface BenchClient {
  /**
   * Asks the worker.
   * @throws CallCancelled, WorkerLost, or an Error with the worker's own sentence
   */
  call<Name extends CallName>(
    name: Name,
    args: Parameters<BenchCalls[Name]>,
    options?: CallOptions<ProgressOf<Name>>,
  ): Promise<ReturnType<BenchCalls[Name]>>;
  /** Stops the worker; every pending call ends with `WorkerLost`. */
  close(): void;
}

interface Pending {
  readonly settle: (message: Extract<FromWorker, { id: number }>) => void;
  readonly reject: (error: Error) => void;
}

/**
 * A client that starts its worker at the first call, and a new one at the first call after a crash.
 * @param start - makes a worker; a test gives its own
 * @param startLimit - milliseconds until a worker that does not answer counts as lost
 * @param onNews - told what the worker says unasked
 * @param onLost - told when the worker stopped, also where no call was waiting for it; the calls that were end with the same error
 */
export function createBenchClient(
  start: () => Worker = startBenchWorker,
  startLimit = START_LIMIT,
  onNews: (news: WorkerNews) => void = () => undefined,
  onLost: (error: WorkerLost) => void = () => undefined,
): BenchClient {
  const pending = new Map<number, Pending>();
  let lastId = 0;
  let worker: Worker | undefined;
  let startTimer: ReturnType<typeof setTimeout> | undefined;

  const lose = (reason: string): void => {
    clearTimeout(startTimer);
    worker?.terminate();
    worker = undefined;
    const lost = [...pending.values()];
    pending.clear();
    const error = new WorkerLost(reason);
    for (const { reject } of lost) reject(error);
    onLost(error);
  };

  const receive = (started: Worker, message: FromWorker): void => {
    if ('ready' in message) {
      clearTimeout(startTimer);
      if (message.life !== undefined) void watch(started, message.life);
    } else if ('id' in message) pending.get(message.id)?.settle(message);
    else onNews(message);
  };

  /** A worker that the browser ends tells nobody; but whoever gets its lock knows. */
  const watch = (started: Worker, life: string): Promise<void> =>
    navigator.locks.request(life, () => {
      if (worker === started) lose('The part of the page that holds the readings stopped.');
    });

  const running = (): Worker => {
    if (worker !== undefined) return worker;
    const started = start();
    started.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      receive(started, data);
    };
    started.onerror = (event) => {
      event.preventDefault();
      if (worker === started) lose(`The part of the page that holds the readings stopped${because(event.message)}.`);
    };
    started.onmessageerror = () => {
      if (worker === started) lose('An answer from the part of the page that holds the readings could not be read.');
    };
    startTimer = setTimeout(() => {
      lose('The part of the page that holds the readings did not start: reload the page.');
    }, startLimit);
    worker = started;
    return started;
  };

  return {
    call: (name, args, { signal, onProgress } = {}) =>
      new Promise((resolve, reject) => {
        if (signal?.aborted === true) throw new CallCancelled('Cancelled before it began.');
        const id = ++lastId;
        const target = running();
        const cancel = (): void => {
          target.postMessage({ id, cancel: true } satisfies ToWorker);
        };
        const finish = (): void => {
          pending.delete(id);
          signal?.removeEventListener('abort', cancel);
        };
        pending.set(id, {
          settle: (message) => {
            if ('progress' in message) {
              onProgress?.(message.progress as ProgressOf<typeof name>);
              return;
            }
            finish();
            if ('result' in message) resolve(message.result as ReturnType<BenchCalls[typeof name]>);
            else reject(message.cancelled ? new CallCancelled(message.error) : new Error(message.error));
          },
          reject: (error) => {
            finish();
            reject(error);
          },
        });
        signal?.addEventListener('abort', cancel);
        try {
          target.postMessage({ id, call: name, args } satisfies ToWorker);
        } catch (error) {
          finish();
          throw error;
        }
      }),
    close: () => {
      lose('The page was closed.');
    },
  };
}

function because(message: string): string {
  return message === '' ? '' : ` (${message})`;
}

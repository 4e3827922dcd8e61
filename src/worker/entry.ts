import { openKeeper } from '../store/keeper.ts';
import { createBench } from './bench/bench.ts';
import { loadAhead } from './bench/later.ts';
import { keptMemory } from './bench/memory.ts';
import type { BenchHandlers } from './contract/calls.ts';
import type { FromWorker, ToWorker } from './contract/messages.ts';

// Nothing that is read here may leave: the ways out are taken away before any file is opened.
for (const name of ['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'WebTransport', 'importScripts']) {
  for (let scope: unknown = self; scope !== null; scope = Object.getPrototypeOf(scope)) {
    Reflect.deleteProperty(scope as object, name);
  }
}

/** Milliseconds that the first view has to itself before the parts for later are loaded. */
const AHEAD_AFTER = 2000;

type Handler = (context: Parameters<BenchHandlers['summary']>[0], ...args: readonly unknown[]) => unknown;

const bench = createBench(
  keptMemory(() =>
    openKeeper({
      onChange: () => { post({ changed: true }); }, // prettier-ignore
      onBegun: () => { post({ begun: true }); }, // prettier-ignore
      onWaiting: (waits) => { post({ waits }); }, // prettier-ignore
      onSilent: (waits) => { post({ waits, silent: true }); }, // prettier-ignore
      onBlocked: (waits) => { post({ waits }); }, // prettier-ignore
      onClosed: (closed) => { post({ closed }); }, // prettier-ignore
    }),
  ),
);
const running = new Map<number, AbortController>();

function post(message: FromWorker): void {
  self.postMessage(message);
}

async function answer({ id, call, args }: Extract<ToWorker, { call: unknown }>): Promise<void> {
  const { signal } = running.set(id, new AbortController()).get(id)!;
  try {
    const handler = bench[call] as Handler;
    post({ id, result: await handler({ signal, report: (progress) => { post({ id, progress }); } }, ...args) }); // prettier-ignore
  } catch (error) {
    post({ id, error: error instanceof Error ? error.message : String(error), cancelled: signal.aborted });
  } finally {
    running.delete(id);
  }
}

self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if ('cancel' in data) running.get(data.id)?.abort();
  else void answer(data);
};

/** Says that the worker is there, holding a lock that the browser lets go of when the worker ends, however it ends. */
function begin(): void {
  const { locks } = navigator as { readonly locks?: LockManager };
  if (locks === undefined) {
    post({ ready: true });
    return;
  }
  const life = `bench ${crypto.randomUUID()}`;
  void locks.request(life, () => {
    post({ ready: true, life });
    return new Promise(() => undefined);
  });
}

begin();
setTimeout(() => void loadAhead(), AHEAD_AFTER);

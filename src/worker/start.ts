import workerAddress from './entry.ts?worker&url';
import { trustedScript } from './trusted-script.ts';

/** Starts the worker that holds the readings. */
export function startBenchWorker(): Worker {
  return new Worker(trustedScript(workerAddress), { type: 'module', name: 'bench' });
}

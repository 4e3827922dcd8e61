import BenchWorker from './entry.ts?worker&inline';

/** Starts the worker out of the one file that the portable page is. */
export function startBenchWorker(): Worker {
  return new BenchWorker({ name: 'bench' });
}

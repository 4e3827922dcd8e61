import type { BenchCalls, BenchHandlers, CallContext, CallName } from '../../src/worker/contract/calls.ts';

const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

/** Asks a bench as the page does, without a worker between. */
export function asking(bench: BenchHandlers) {
  return async <Name extends CallName>(
    name: Name,
    ...args: Parameters<BenchCalls[Name]>
  ): Promise<ReturnType<BenchCalls[Name]>> => bench[name](context, ...args);
}

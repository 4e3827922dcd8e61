import type { BenchCalls, BenchHandlers, CallContext, CallName } from '../../src/worker/contract/calls.ts';

export const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

/** Asks a bench as the page does, without a worker between. */
export async function ask<Name extends CallName>(
  bench: BenchHandlers,
  name: Name,
  ...args: Parameters<BenchCalls[Name]>
): Promise<ReturnType<BenchCalls[Name]>> {
  return bench[name](context, ...args);
}

/** Asks one bench. */
export function asking(bench: BenchHandlers) {
  return async <Name extends CallName>(
    name: Name,
    ...args: Parameters<BenchCalls[Name]>
  ): Promise<ReturnType<BenchCalls[Name]>> => ask(bench, name, ...args);
}

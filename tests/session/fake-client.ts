import type { BenchCalls, CallName } from '../../src/session/answers.ts';
import type { BenchClient, CallOptions } from '../../src/worker/client.ts';
import type { ProgressOf } from '../../src/worker/contract/calls.ts';

/** Answers that a test gives in the worker's place, at once or later; a call without one fails. */
export type FakeAnswers = {
  [Name in CallName]?: (
    args: Parameters<BenchCalls[Name]>,
    options: CallOptions<ProgressOf<Name>>,
  ) => ReturnType<BenchCalls[Name]> | Promise<ReturnType<BenchCalls[Name]>>;
};

export interface FakeClient extends BenchClient {
  /** The calls so far, in order. */
  readonly calls: { readonly name: CallName; readonly args: readonly unknown[] }[];
  /** May be changed while the test runs. */
  readonly answers: FakeAnswers;
}

/** A client without a worker. */
export function fakeClient(answers: FakeAnswers = {}): FakeClient {
  const calls: FakeClient['calls'] = [];
  return {
    answers,
    calls,
    call: async (name, args, options = {}) => {
      calls.push({ name, args });
      const answer = answers[name];
      if (answer === undefined) throw new Error(`The test gives no answer to ${name}.`);
      return answer(args, options);
    },
    close: () => undefined,
  };
}

import type { BenchCalls, CallContext, CallName } from '../../../src/worker/contract/calls.ts';
import { CHANGING_CALLS } from '../../../src/session/changing-calls.ts';
import type { Session } from '../../../src/session/session.ts';
import { createBench } from '../../../src/worker/bench/bench.ts';

/** A session over a bench in this very thread, and what the bench answers without a page between. */
export interface BenchSession {
  readonly session: Session;
  readonly ask: <Name extends CallName>(
    name: Name,
    ...args: Parameters<BenchCalls[Name]>
  ) => Promise<ReturnType<BenchCalls[Name]>>;
  /** Makes the session's next call of this name fail, as where the disk is full. */
  readonly failOnce: (name: CallName) => void;
}

/** Why a call fails that was made to. */
export const FAILED = 'The disk is full: nothing of this was kept.';

/** Reads a log in, given as text, and gives the session that shows it. */
export async function benchSession(text: string, decimalMark: '.' | ',' = '.'): Promise<BenchSession> {
  const bench = createBench();
  const context: CallContext = { signal: new AbortController().signal, report: () => undefined };
  const ask: BenchSession['ask'] = async (name, ...args) => bench[name](context, ...args);
  const { refused } = await ask('bringIn', [new File([text], 'bench.csv')]);
  if (refused[0] !== undefined) throw new Error(refused[0].reason);
  const listeners = new Set<() => void>();
  const failing = new Set<CallName>();
  const session = {
    state: { revision: 1, decimalMark, bench: 'own', kept: { keeps: false, faults: [], canUndoSwitch: false } },
    subscribe(listener: () => void) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    async ask<Name extends CallName>(name: Name, args: Parameters<BenchCalls[Name]>) {
      if (failing.delete(name)) throw new Error(FAILED);
      const answer = await ask(name, ...args);
      if (CHANGING_CALLS.has(name)) {
        session.state = { ...session.state, revision: session.state.revision + 1 };
        for (const listener of listeners) listener();
      }
      return answer;
    },
  };
  return { session: session as unknown as Session, ask, failOnce: (name) => failing.add(name) };
}

/** A log of two families over three repairs and two days, small enough to be known by heart. */
export const SMALL_LOG = [
  'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:01:00,T-0501,HERON-48,bulk,live,DC volts,board,390.1,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,Q1 D→S,as received,resistance,board,0.4,Ω,M1',
  '2026-04-01T09:03:00,T-0501,HERON-48,Q1 D→S,part out,resistance,board,0.5,Ω,M1',
  '2026-04-01T09:04:00,T-0501,HERON-48,Q1 D→S,part out,resistance,new part,0.640,MΩ,M1',
  '2026-04-02T09:00:00,T-0502,HERON-48,5V standby,live,DC volts,board,5.10,V,M2',
  '2026-04-02T09:01:00,T-0502,HERON-48,bulk,live,DC volts,board,OL,V,M2',
  '2026-04-02T10:00:00,T-0503,PLOVER-32,5V standby,live,DC volts,board,4.98,V,M2',
  '2026-04-02T10:01:00,T-0503,PLOVER-32,bulk,live,DC volts,board,321.5,V,M1',
  '',
].join('\n');

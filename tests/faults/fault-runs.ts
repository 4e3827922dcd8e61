import type { TestContext } from 'vitest';
import { Random } from '../support/bench/random.ts';

/** One time that a fault is made to happen. */
export interface FaultRun {
  /** Counted from 1. */
  readonly number: number;
  /** Of this run alone, so that one run can be had again by its number. */
  readonly random: Random;
}

/** Any number; with the number of a run it gives that run's moments. */
const SEED = 20_260_314;

/**
 * Makes a fault happen again and again, and notes for the table how often nothing was lost.
 * @param fault - its place in the plan and its name, as `F2 tab closed`
 * @param one - one run; throws where anything was lost or nothing was said
 * @throws Error after the last run, where one of them threw; it names every such run
 */
export async function faultRuns(
  { task }: Pick<TestContext, 'task'>,
  fault: string,
  runs: number,
  one: (run: FaultRun) => Promise<void>,
): Promise<void> {
  const lost: string[] = [];
  for (let number = 1; number <= runs; number += 1) {
    try {
      await one({ number, random: new Random(SEED + number) });
    } catch (cause) {
      lost.push(
        `run ${number} of ${runs}, seed ${SEED + number}: ${cause instanceof Error ? cause.message : String(cause)}`,
      );
    }
  }
  task.meta.fault = { fault, runs, survived: runs - lost.length };
  if (lost.length > 0) throw new Error(`${fault}:\n${lost.join('\n')}`);
}

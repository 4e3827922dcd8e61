import type { GoBackEntry, RepairDecision } from '../../src/ui/panels/repair-answers.ts';
import { openSession, story } from './app-bench.ts';

const entry = (rule: GoBackEntry['rule'], changes: Partial<GoBackEntry> = {}): GoBackEntry => ({
  rule,
  must: `The ${rule} rule holds.`,
  standing: 'holds',
  sentence: `What the ${rule} rule rests on.`,
  readings: [],
  readingsInAll: changes.readings?.length ?? 0,
  ...changes,
});

/** A decision with one line of every standing. */
export const decision: RepairDecision = {
  repair: 'T-0131',
  goBack: [
    entry('shorts', { readings: [story.readings[1]!] }),
    entry('fuse', { standing: 'not measured' }),
    entry('live', { standing: 'does not hold', readings: [story.readings[2]!], readingsInAll: 1201 }),
    entry('run-in', { standing: 'does not apply' }),
    entry('meters', { standing: 'does not hold', overruled: 'checked against B1' }),
  ],
  mayGoBack: false,
  comparisons: [
    {
      point: 'Q1 D→S',
      outOfCircuit: story.readings[1]!,
      newPart: { ...story.readings[1]!, row: 9, specimen: 'new part', value: 1.25e6, prefix: 6, decimals: 3 },
      ratio: { value: 0.3 / 1.25e6, digits: 1 },
    },
  ],
  oddities: ['M1 and M2 read at the same moment, once.'],
  parts: [
    { designator: 'Q1', nodes: ['drain', 'source'] },
    { designator: 'D3', nodes: ['source', 'drain'] },
    { designator: 'F1', nodes: ['line', 'fused line'] },
  ],
};

/** A session over the small bench that also answers what it takes to decide about a repair. */
export function openRepairs(...[own = {}, files]: Parameters<typeof openSession>): ReturnType<typeof openSession> {
  return openSession({ decision: () => decision, whatNext: () => undefined, ...own }, files);
}

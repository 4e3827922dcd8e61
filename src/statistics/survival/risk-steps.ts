import { finiteReadings } from '../numerics/guards.ts';
import type { Lifetimes } from './lifetimes.ts';

/**
 * One time at which something happened: how many were under observation just before, and how many had the event then.
 */
export interface RiskStep {
  readonly time: number;
  readonly atRisk: number;
  readonly events: number;
}

/**
 * The numbers at risk and the events at every different time, ascending. One that is censored at a time still counts as
 * at risk then. Cost: O(n log n).
 *
 * @throws Error without lifetimes, with lists of different length, or with a time that is negative or not finite
 */
export function riskSteps(subject: string, { times, events }: Lifetimes): RiskStep[] {
  const durations = finiteReadings(subject, times, 1);
  if (durations.length !== events.length) {
    throw new Error(
      `${subject} needs as many times as events, got ${String(durations.length)} and ${String(events.length)}`,
    );
  }
  const byTime = new Map<number, { ended: number; events: number }>();
  durations.forEach((time, i) => {
    if (time < 0) throw new Error(`${subject} needs times from 0 up, got ${String(time)}`);
    const event = events[i] === true ? 1 : 0;
    const group = byTime.get(time);
    if (group === undefined) byTime.set(time, { ended: 1, events: event });
    else {
      group.ended += 1;
      group.events += event;
    }
  });
  let atRisk = durations.length;
  return [...byTime]
    .sort(([a], [b]) => a - b)
    .map(([time, group]) => {
      const step = { time, atRisk, events: group.events };
      atRisk -= group.ended;
      return step;
    });
}

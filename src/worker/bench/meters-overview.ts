import { VALUE } from '../../columns/reading-log.ts';
import { limitsAt } from '../../judging/judge.ts';
import { mayHaveTurned, type MeterPeriod } from '../../patterns/meter-offsets.ts';
import { comparableChecks } from '../../patterns/meter-residuals.ts';
import type { CallContext } from '../contract/calls.ts';
import type { MetersOverview } from '../contract/families.ts';
import type { WorkProgress } from '../contract/progress.ts';
import type { Judged } from './bench-data.ts';
import { knownOffsetsPaced, offsetSteps } from './known-offsets.ts';
import { PacedWork } from './paced-work.ts';

/**
 * What the meters' readings say of the meters, and how many verdicts an offset may have turned.
 * @throws where the context's signal stops it
 */
export async function metersOverview(judged: Judged, context: CallContext<WorkProgress>): Promise<MetersOverview> {
  const { log } = judged.data;
  // A meter has two periods at most.
  const work = new PacedWork(context, offsetSteps(log) + 2 * log.names.meters.size);
  try {
    const offsets = await knownOffsetsPaced(log, work);
    const periods: MetersOverview['periods'][number][] = [];
    for (const period of offsets.periods) {
      periods.push({ ...period, ...turnedBy(judged, period) });
      await work.step();
    }
    return { ...offsets, periods };
  } finally {
    work.close();
  }
}

/** Of the readings from which an offset is told, those whose place in or out of band it may have turned: of other modes nothing is known. */
function turnedBy(judged: Judged, period: MeterPeriod): Pick<MetersOverview['periods'][number], 'turned' | 'turnedIn'> {
  const { log } = judged.data;
  const isComparable = comparableChecks(log);
  const meter = log.names.meters.find(period.meter);
  const repairs = new Set<number>();
  let turned = 0;
  for (let row = 0; row < log.count; row += 1) {
    const time = log.time[row]!;
    if (log.meter[row] !== meter || log.state[row] !== VALUE || isComparable[log.check[row]!] === 0) continue;
    if (time < period.since || time > period.until) continue;
    const limits = limitsAt(log, row, judged.standard);
    if (limits === undefined || !mayHaveTurned(log.value[row]!, limits, period.percent)) continue;
    turned += 1;
    repairs.add(log.repair[row]!);
  }
  return { turned, turnedIn: [...repairs].map((repair) => log.names.repairs.label(repair)) };
}

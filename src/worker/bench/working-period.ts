import { activityPeriod, type Activity, type ActivityPeriod } from '../../patterns/activity-period.ts';
import type { Judged } from './bench-data.ts';
import { remembered } from './remembered.ts';

/** The days between which the bench was at work, by all that has a date; undefined where nothing has one. */
export const workingPeriod = remembered((judged): ActivityPeriod | undefined => activityPeriod(activities(judged)));

function* activities({ data, rowsByRepair }: Judged): Generator<Activity> {
  const { log, repairs } = data;
  for (const { id, received, returned } of repairs.values()) {
    yield { repair: id, time: received };
    yield { repair: id, time: returned };
  }
  for (const [code, rows] of rowsByRepair.entries()) {
    const repair = log.names.repairs.label(code);
    for (const row of rows) yield { repair, time: log.time[row]! };
  }
}

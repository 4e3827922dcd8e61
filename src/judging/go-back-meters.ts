import { DAY } from '../domain/day.ts';
import { listText } from '../domain/list-text.ts';
import type { Meter } from '../domain/meter.ts';
import { isPowered } from '../domain/reading.ts';
import { afterLastWork, held, type Held } from './go-back-case.ts';
import type { GoBackCase, JudgedReading, MeterFault } from './go-back.ts';

/** Whether the meters behind the readings under power were in order when they took them. A due day that nobody noted is said, not guessed. */
export function metersLine(board: GoBackCase): Held {
  const after = afterLastWork(board).filter(({ stage }) => isPowered(stage));
  if (after.length === 0)
    return held('does not apply', 'No powered reading was taken after the last part was fitted.', []);
  const faults = [...board.meterFaults, ...board.meters.flatMap(overdueFrom)];
  const against = faults.filter((fault) => after.some((reading) => isUnder(fault, reading)));
  if (against.length > 0) {
    const on = after.filter((reading) => against.some((fault) => isUnder(fault, reading)));
    return held('does not hold', against.map(({ sentence }) => sentence).join(' '), on);
  }
  const names = [...new Set(after.map(({ meter }) => meter))].filter((name) => name !== '').sort();
  if (names.length === 0) return held('not measured', 'No reading says which meter took it.', after);
  const unnamed = after.some(({ meter }) => meter === '') ? '; some readings name no meter' : '';
  const undated = names.filter((name) => board.meters.find((meter) => meter.name === name)?.calibrationDue === undefined);
  const due = undated.length === 0 ? '' : ` When ${listText(undated)} ${undated.length === 1 ? 'falls' : 'fall'} due for calibration is not known.`;
  return held('holds', `Nothing is known against ${listText(names)}${unnamed}.${due}`, after);
} // prettier-ignore

/** The time from which a meter is overdue: the end of the day on which it falls due. */
function overdueFrom({ name, calibrationDue }: Meter): readonly MeterFault[] {
  if (calibrationDue === undefined) return [];
  const day = new Date(calibrationDue).toISOString().slice(0, 10);
  const sentence = `${name} was overdue: its calibration fell due on ${day}.`;
  return [{ meter: name, since: calibrationDue + DAY, until: Infinity, sentence }];
}

/** A reading without a time may have been taken while the meter was off. */
function isUnder({ meter, since, until }: MeterFault, reading: JudgedReading): boolean {
  return reading.meter === meter && !(reading.time < since || reading.time > until);
}

import type { ReadingLog } from '../../columns/reading-log.ts';
import { countOf } from '../../domain/count-text.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { repairOddities } from '../../domain/repair-fault.ts';
import { isOutOfBand, PASS, VERDICT_MASK } from '../../domain/verdict.ts';
import { goBackLines, mayGoBack, type MeterFault } from '../../judging/go-back.ts';
import type { ReadingRow } from '../contract/readings.ts';
import type { GoBackAnswer, GoBackEntry, RepairDecision } from '../contract/repairs.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import { knownOffsets } from './known-offsets.ts';
import { comparisons } from './part-comparisons.ts';
import { readingRow } from './reading-rows.ts';
import { repairLine, rowsOf } from './repair-lines.ts';
import { MOST_LISTED } from './repair-stories.ts';

/** What it takes to decide about one board; undefined where nothing names the repair. */
export function repairDecision(judged: Judged, id: string, mark: DecimalMark): RepairDecision | undefined {
  if (!isNamed(judged, id)) return undefined;
  const board = boardOf(judged, id);
  const { repair, family, readings } = board;
  return {
    ...goBackAnswer(judged, board, mark),
    comparisons: comparisons(readings),
    oddities: repairOddities(repair, family, judged.data.families.has(repair.family), readings, mark),
    parts: family?.parts ?? [],
  };
}

/** Whether each of some boards may go back; those that nothing names are left out. */
export function goBackAnswers(judged: Judged, ids: readonly string[], mark: DecimalMark): readonly GoBackAnswer[] {
  return ids.filter((id) => isNamed(judged, id)).map((id) => goBackAnswer(judged, boardOf(judged, id), mark));
}

/** A board with what it takes to decide about it. */
function boardOf(judged: Judged, id: string) {
  const { repair } = repairLine(judged, id);
  return {
    repair,
    family: familyNamed(judged.data, repair.family),
    readings: condensed(judged, rowsOf(judged, id)),
  };
}

function isNamed({ data }: Judged, id: string): boolean {
  return data.repairs.has(id) || data.log.names.repairs.find(id) >= 0;
}

/** The one answer to whether a board may go back: for its page, the list of repairs, sheets and prints alike. */
function goBackAnswer({ data }: Judged, board: ReturnType<typeof boardOf>, mark: DecimalMark): GoBackAnswer {
  const { repair, family, readings } = board;
  const overruled = new Map(
    data.overrules.filter((one) => one.repair === repair.id).map(({ rule, reason }) => [rule, reason]),
  );
  const lines = goBackLines({
    repair,
    ...(family && { family }),
    bands: data.bands.filter((band) => band.family === repair.family),
    readings,
    meters: data.meters,
    meterFaults: meterFaults(data.log, mark),
    mark,
  });
  const byRow = new Map(readings.map((reading) => [reading.row, reading]));
  const goBack = lines.map(({ rows, ...line }): GoBackEntry => {
    const reason = overruled.get(line.rule);
    const own = rows.slice(0, MOST_LISTED).flatMap((row) => byRow.get(row) ?? []);
    const readingsInAll = rows.reduce((sum, row) => sum + 1 + (byRow.get(row)?.alike ?? 0), 0);
    return { ...line, readings: own, readingsInAll, ...(reason !== undefined && { overruled: reason }) };
  });
  return { repair: repair.id, goBack, mayGoBack: mayGoBack(goBack) };
}

/** A reading, with how many later entries of a run-in it stands for. */
type Condensed = ReadingRow & { readonly alike?: number };

/** A repair's readings in which later entries of a long run-in that stand alike, one after the other, are one reading with their count. */
function condensed(judged: Judged, rows: Uint32Array): readonly Condensed[] {
  const { log } = judged.data;
  const { checks } = log.names;
  const isRunIn = Array.from({ length: checks.size }, (_, check) => checks.stage(check) === 'run-in');
  const readings: (ReadingRow & { alike?: number })[] = [];
  let last: number | undefined;
  let entries = 0;
  for (const row of rows) {
    const logged = isRunIn[log.check[row]!] === true;
    if (logged) entries += 1;
    const before = readings.at(-1);
    if (logged && entries > MOST_LISTED && before && last !== undefined && standAlike(judged, last, row))
      before.alike = (before.alike ?? 0) + 1;
    else readings.push(readingRow(judged, row));
    last = logged ? row : undefined;
  }
  return readings;
}

/** Whether two entries of a run-in are of one check and meter, and both in band, out of band, or not judged for the same reason. */
function standAlike({ data: { log }, verdicts }: Judged, one: number, other: number): boolean {
  return (
    log.check[one] === log.check[other] &&
    log.meter[one] === log.meter[other] &&
    log.state[one] === log.state[other] &&
    standing(verdicts[one]!) === standing(verdicts[other]!)
  );
}

function standing(verdict: number): 'out' | 'in' | 'not judged' {
  return isOutOfBand(verdict) ? 'out' : (verdict & VERDICT_MASK) >= PASS ? 'in' : 'not judged';
}

/** A meter that surely reads off by this much is held against its readings, in percent (common practice, no source). */
const METER_OFF = 0.5;

/** What the whole log says against its meters, for the time that it holds. */
function meterFaults(log: ReadingLog, mark: DecimalMark): readonly MeterFault[] {
  const offsets = knownOffsets(log);
  if (offsets.onlyDifference) return [];
  return offsets.periods
    .filter(({ low, high }) => low > METER_OFF || high < -METER_OFF)
    .map(({ meter, since, until, percent, repairs }) => {
      const text = Math.abs(percent).toFixed(1).replace('.', mark);
      const sentence = `${meter} reads ${text}\u00a0% ${percent > 0 ? 'high' : 'low'} against the other meters, over ${countOf(repairs, 'repair', mark)}.`;
      return { meter, since, until, sentence };
    });
}

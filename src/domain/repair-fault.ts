import { countOf, countText } from './count-text.ts';
import { DAY } from './day.ts';
import { maskedBy, pointFromName, type Family } from './family.ts';
import type { DecimalMark } from './quantity.ts';
import type { Reading } from './reading.ts';
import type { Repair } from './repair.ts';

/** Why a repair cannot be kept: the field to blame, and a sentence that says what to do. */
export interface RepairFault {
  readonly field: 'id' | 'returned' | 'outcome' | 'comebackOf';
  readonly sentence: string;
}

/**
 * Why a repair cannot be kept; undefined where it can. A family that nobody has declared is no fault.
 * @param others - repairs that are known, by id
 * @param isNew - whether it is added, and so takes nobody's place
 */
export function repairFault(
  repair: Repair,
  others: ReadonlyMap<string, Repair>,
  isNew = false,
): RepairFault | undefined {
  const { id, received, returned, comebackOf, outcome } = repair;
  if (id.trim() === '') return { field: 'id', sentence: 'A repair needs an id.' };
  if (isNew && others.has(id))
    return { field: 'id', sentence: `${id} is on the bench already, and stays as it is: choose another id, or correct its record.` }; // prettier-ignore
  if (returned < received)
    return { field: 'returned', sentence: 'This repair was returned before it was received: correct one of the days.' };
  if (outcome === 'open' && !Number.isNaN(returned))
    return { field: 'outcome', sentence: 'An open repair has no day of return: choose its outcome, or clear the day.' };
  const sentence = comebackOf === undefined ? undefined : comebackFault(repair, comebackOf, others);
  return sentence === undefined ? undefined : { field: 'comebackOf', sentence };
}

function comebackFault(
  { id, received }: Repair,
  comebackOf: string,
  others: ReadonlyMap<string, Repair>,
): string | undefined {
  if (comebackOf === id) return 'A repair cannot be the comeback of itself: name the earlier one.';
  const first = others.get(comebackOf);
  if (first === undefined) return `No repair ${comebackOf} is known, so ${id} cannot be its comeback: correct the id.`;
  if (first.comebackOf === id) return `${comebackOf} is the comeback of ${id} already: one of the two was first.`;
  if (received < first.received || received < first.returned)
    return `${id} was received before ${comebackOf} was returned, so it cannot be its comeback: correct a day or the id.`;
  return undefined;
}

/** What stands in a repair's data that cannot be as it stands there, each a sentence. Nothing is put right: it is shown as found. */
export function repairOddities(
  repair: Repair,
  family: Family | undefined,
  isDeclared: boolean,
  readings: readonly Reading[],
  mark: DecimalMark,
): readonly string[] {
  return [
    ...familyOddities(repair, isDeclared, readings),
    ...orderOddities(readings, mark),
    ...fittedBeforeOut(family, readings),
    ...twoMetersAtOnce(readings, mark),
    ...outsideItsDays(repair, readings, mark),
  ];
}

function familyOddities({ family }: Repair, isDeclared: boolean, readings: readonly Reading[]): readonly string[] {
  const others = [...new Set(readings.map((reading) => reading.family))].filter((name) => name !== family);
  return [
    ...(family === '' ? ['No family is given for this repair, so no band holds for it.'] : []),
    ...(family !== '' && !isDeclared
      ? [
          `Nobody has declared the family ${family}: its points are those that readings name, and its parts are not known.`,
        ]
      : []),
    ...others.map((name) => `Some readings name the family ${name === '' ? '(none)' : name}, and the repair ${family === '' ? 'none' : family}.`), // prettier-ignore
  ];
}

function orderOddities(readings: readonly Reading[], mark: DecimalMark): readonly string[] {
  const unknown = readings.filter(({ time }) => Number.isNaN(time)).length;
  const lines = new Map<string, number>();
  const back = new Map<string, number>();
  for (const { origin, time } of readings) {
    if (Number.isNaN(time)) continue;
    const furthest = lines.get(origin.file) ?? 0;
    if (origin.line < furthest) back.set(origin.file, (back.get(origin.file) ?? 0) + 1);
    lines.set(origin.file, Math.max(furthest, origin.line));
  }
  return [
    ...(unknown === 0
      ? []
      : [`${counted(unknown, mark)} no known time: ${unknown === 1 ? 'it stands' : 'they stand'} last.`]),
    ...[...back].map(
      ([file, count]) =>
        `In ${file}, ${counted(count, mark)} an earlier line than a reading of an earlier time: they are shown in the order of their times.`,
    ),
  ];
}

/** Parts that read as refitted before they, or a part across the same nodes, had come out, and came out later. */
function fittedBeforeOut(family: Family | undefined, readings: readonly Reading[]): readonly string[] {
  const own = readings.filter(({ specimen }) => specimen === 'board');
  const partOf = ({ point }: Reading): string | undefined =>
    (family?.points.find(({ name }) => name === point) ?? pointFromName(point)).part;
  const parts = new Set(own.filter(({ stage }) => stage === 'part out').flatMap((reading) => partOf(reading) ?? []));
  return [...parts].flatMap((part) => {
    const across = [part, ...maskedBy(family?.parts ?? [], part)];
    const out = own.findIndex((reading) => reading.stage === 'part out' && across.includes(partOf(reading) ?? ''));
    const fitted = own.findIndex((reading) => reading.stage === 'refitted' && partOf(reading) === part);
    return fitted >= 0 && fitted < out ? [`${part} reads as refitted before it came out: a stage or a time is wrong.`] : []; // prettier-ignore
  });
}

function twoMetersAtOnce(readings: readonly Reading[], mark: DecimalMark): readonly string[] {
  const pairs = readings.filter((reading, at) => {
    const before = readings[at - 1];
    return before?.time === reading.time && before.meter !== reading.meter;
  });
  const [first] = pairs;
  if (first === undefined) return [];
  const meters = new Set(
    readings.filter(({ time }) => pairs.some((pair) => pair.time === time)).map(({ meter }) => meter),
  );
  return [`${[...meters].sort().join(' and ')} read at the same moment, ${pairs.length === 1 ? 'once' : `${countText(pairs.length, mark)} times`}: one of the clocks may be wrong.`]; // prettier-ignore
}

function outsideItsDays(
  { received, returned }: Repair,
  readings: readonly Reading[],
  mark: DecimalMark,
): readonly string[] {
  const early = readings.filter(({ time }) => time < received).length;
  const late = readings.filter(({ time }) => time >= returned + DAY).length;
  return [
    ...(early === 0 ? [] : [`${counted(early, mark)} a time before the board was received.`]),
    ...(late === 0 ? [] : [`${counted(late, mark)} a time after the board was returned.`]),
  ];
}

function counted(count: number, mark: DecimalMark): string {
  return `${countOf(count, 'reading', mark)} ${count === 1 ? 'has' : 'have'}`;
}

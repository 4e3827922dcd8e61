import type { Band } from '../domain/band.ts';
import { TOUCH_LIMIT } from '../domain/discharge.ts';
import { designatorOf, maskedBy, partClass, pointFromName, type Family } from '../domain/family.ts';
import { formatShown, joinQuantity, type DecimalMark } from '../domain/quantity.ts';
import { isInCircuit, isPowered, MODE_UNITS, type Reading } from '../domain/reading.ts';
import type { Repair } from '../domain/repair.ts';
import { isOutOfBand, PASS, SHORT_BELOW_OHMS, VERDICT_MASK, type PartWord } from '../domain/verdict.ts';

/** What must hold before a board goes back, by the names under which a technician may overrule each. */
export const GO_BACK_RULES = {
  shorts: 'No short or leak is left where parts were refitted.',
  fuse: 'The fuse is good.',
  live: 'Every live point is measured after the last part was fitted, and in band.',
  'run-in': 'The run-in shows no excursion.',
  discharge: 'The bulk capacitor was measured below 60 V d.c. before each unpowered work that followed power.',
  meters: 'The meters behind these readings are not known to be off.',
} as const;
export type GoBackRule = keyof typeof GO_BACK_RULES;

/** `does not apply`: the repair holds nothing that the rule speaks of. */
export type Standing = 'holds' | 'does not hold' | 'not measured' | 'does not apply';

export interface GoBackLine {
  readonly rule: GoBackRule;
  /** What must hold. */
  readonly must: string;
  readonly standing: Standing;
  /** What the standing rests on, or what is missing. */
  readonly sentence: string;
  /** Rows of the log that it rests on, in order of time. */
  readonly rows: readonly number[];
}

/** A reading with its row of the log and its verdict code, as `domain/verdict.ts` has it. */
export interface JudgedReading extends Reading {
  readonly row: number;
  readonly verdict: number;
  readonly word?: PartWord;
  /** Run-in entries of the same point directly after it that are left out, being in or out of band, judged or not, just as it is. */
  readonly alike?: number;
}

/** A line that a technician lets pass although it does not hold, with the reason. */
export interface Overrule {
  readonly repair: string;
  readonly rule: GoBackRule;
  readonly reason: string;
}

/** Of more excursions than this, the first are told. */
const MOST_SAID = 3;

export interface GoBackCase {
  readonly repair: Repair;
  readonly family?: Family;
  /** The bands of its family. */
  readonly bands: readonly Band[];
  /** In order of time. */
  readonly readings: readonly JudgedReading[];
  /** What is known against meters, a sentence each, by name. */
  readonly meterFaults?: ReadonlyMap<string, string>;
  readonly mark: DecimalMark;
}

/** Holds a repair's readings against every rule, in the order of the work. Nothing is taken for granted: what was not measured says so. */
export function goBackLines(board: GoBackCase): readonly GoBackLine[] {
  return [
    shortsLine(board),
    fuseLine(board),
    liveLine(board),
    runInLine(board),
    dischargeLine(board),
    metersLine(board),
  ];
}

function shortsLine(board: GoBackCase): GoBackLine {
  const seen = board.readings.filter(({ specimen, stage }) => specimen === 'board' && !isPowered(stage));
  const partPoints = seen.filter(({ point }) => partAt(board, point) !== undefined && !isFuse(board, point));
  const last = lastOfEach(partPoints.filter(({ stage }) => isInCircuit(stage)));
  const bad = last.filter(({ word }) => word === 'shorted' || word === 'leaky');
  const standing = bad.filter((reading) => !clearedLater(board, reading, last));
  const opened = new Set([
    ...board.repair.replaced.filter((part) => partClass(part) !== 'F'),
    ...partPoints.filter(({ stage }) => stage === 'part out').flatMap(({ point }) => partAt(board, point) ?? []),
  ]);
  const missing = [...opened].filter((part) => !isRefitted(board, part, partPoints));
  const unjudged = last.filter((reading) => reading.stage === 'refitted' && !isJudged(reading));
  const line = lineOf('shorts');
  if (standing.length > 0)
    return line('does not hold', `${said(standing, board.mark)}, and nothing later clears it.`, standing);
  if (missing.length > 0)
    return line(
      'not measured',
      `${listed(missing)} came out or ${were(missing)} replaced, and ${were(missing)} not read again once fitted.`,
      last,
    );
  if (unjudged.length > 0)
    return line(
      'not measured',
      `${pointsOf(unjudged)} ${were(unjudged)} read once refitted, with no band to judge by.`,
      unjudged,
    );
  if (last.length === 0) return line('not measured', 'No part of this board was measured without power.', []);
  const refitted = last.filter(({ stage }) => stage === 'refitted');
  return refitted.length === 0
    ? line(
        'holds',
        `No part came out, and ${counted(last, 'point')} read as received ${last.length === 1 ? 'shows' : 'show'} no short.`,
        last,
      )
    : line('holds', `${counted(refitted, 'refitted point')} read, none shorted or leaky.`, refitted);
}

/** Whether a later good reading across the same nodes shows that the short is gone from them. */
function clearedLater(board: GoBackCase, bad: JudgedReading, last: readonly JudgedReading[]): boolean {
  const part = partAt(board, bad.point);
  const mates = part === undefined ? [] : maskedBy(board.family?.parts ?? [], part);
  return last.some((reading) => {
    const own = partAt(board, reading.point);
    const later = board.readings.indexOf(reading) > board.readings.indexOf(bad);
    return later && own !== undefined && mates.includes(own) && reading.word === 'good';
  });
}

function isRefitted(board: GoBackCase, part: string, readings: readonly JudgedReading[]): boolean {
  const own = readings.filter(({ point }) => partAt(board, point) === part);
  const lastOut = own.findLastIndex(({ stage }) => stage === 'part out');
  return own.findLastIndex(({ stage }) => stage === 'refitted') > lastOut;
}

function fuseLine(board: GoBackCase): GoBackLine {
  const fuses = new Set([
    ...(board.family?.parts.map(({ designator }) => designator).filter((part) => partClass(part) === 'F') ?? []),
    ...board.readings.flatMap(({ point }) => (isFuse(board, point) ? (partAt(board, point) ?? []) : [])),
  ]);
  const line = lineOf('fuse');
  if (fuses.size === 0) {
    return (board.family?.parts.length ?? 0) > 0
      ? line('does not apply', 'This family declares no fuse.', [])
      : line('not measured', 'No fuse of this board is known: measure it, or declare it in the family.', []);
  }
  const read = [...fuses].map((fuse) => {
    const own = board.readings.filter(({ point, specimen, stage }) => {
      const counts = stage === 'refitted' || (stage === 'as received' && !board.repair.replaced.includes(fuse));
      return counts && specimen === 'board' && partAt(board, point) === fuse;
    });
    return { fuse, reading: own.at(-1) };
  });
  const last = read.flatMap(({ reading }) => reading ?? []);
  const bad = last.filter((reading) => conducts(reading) === false);
  if (bad.length > 0) return line('does not hold', `${said(bad, board.mark)}.`, bad);
  const missing = read.filter(({ reading }) => reading === undefined || conducts(reading) === undefined);
  if (missing.length > 0) {
    const names = listed(missing.map(({ fuse }) => fuse));
    const renewed = missing.some(({ fuse }) => board.repair.replaced.includes(fuse));
    return line(
      'not measured',
      `${names} ${were(missing)} not measured ${renewed ? 'once replaced' : 'in circuit'}.`,
      last,
    );
  }
  return line('holds', `${said(last, board.mark)}.`, last);
}

/** Whether a fuse conducts: by its band, else a beep or a few ohms (common practice, no source); undefined where the answer does not say. */
function conducts(reading: JudgedReading): boolean | undefined {
  const { verdict, word, state, value, mode } = reading;
  if (isJudged(reading)) return word === undefined ? !isOutOfBand(verdict) : word === 'good';
  if (state === 'beep') return true;
  if (state === 'no beep' || state === 'over-range') return false;
  return state === 'value' && MODE_UNITS[mode] === 'Ω' ? value < SHORT_BELOW_OHMS : undefined;
}

function liveLine(board: GoBackCase): GoBackLine {
  const line = lineOf('live');
  const live = board.bands.filter(
    ({ mode, stage }) => isPoweredMode(mode) && (stage === undefined || stage === 'live'),
  );
  const wanted = [...new Set(live.map(({ point }) => point))];
  if (wanted.length === 0)
    return line('not measured', 'No live point of this family has a band to be held against.', []);
  const after = afterLastWork(board).filter(({ stage, specimen, point }) => stage === 'live' && specimen === 'board' && wanted.includes(point)); // prettier-ignore
  const last = lastOfEach(after);
  const out = last.filter(({ verdict }) => isOutOfBand(verdict));
  if (out.length > 0) return line('does not hold', `${said(out, board.mark)}, out of band.`, out);
  const missing = wanted.filter((point) => !after.some((reading) => reading.point === point));
  if (missing.length > 0)
    return line(
      'not measured',
      `${listed(missing)} ${were(missing)} not measured after the last part was fitted.`,
      last,
    );
  const unjudged = wanted.filter((point) => !last.some((reading) => reading.point === point && isJudged(reading)));
  if (unjudged.length > 0)
    return line('not measured', `${listed(unjudged)} ${were(unjudged)} read, and no answer can be held against a band.`, last); // prettier-ignore
  const unsteady = after.filter((reading) => isOutOfBand(reading.verdict) && !last.includes(reading));
  const before = unsteady.length === 0 ? '' : ` Before that, ${said(unsteady, board.mark)}, out of band.`;
  return line(
    'holds',
    `${counted(wanted, 'live point')} read after the last part was fitted, all in band.${before}`,
    last,
  );
}

function runInLine(board: GoBackCase): GoBackLine {
  const line = lineOf('run-in');
  const logged = afterLastWork(board).filter(({ stage }) => stage === 'run-in');
  const out = logged.filter(({ verdict }) => isOutOfBand(verdict));
  const judged = logged.filter(isJudged);
  if (logged.length === 0) return line('does not apply', 'No run-in was logged after the last part was fitted.', []);
  const all = entriesOf(logged);
  if (out.length > 0) {
    const few = said(out.slice(0, MOST_SAID), board.mark);
    return line(
      'does not hold',
      `${entriesOf(out)} of ${all} ${all === 1 ? 'entry' : 'entries'} out of band: ${few}.`,
      out,
    );
  }
  if (judged.length === 0) return line('not measured', `${all} entries of ${pointsOf(logged)}, and no band judges them.`, logged); // prettier-ignore
  const blank = entriesOf(logged.filter(({ state }) => state === 'blank'));
  const gaps = blank === 0 ? '' : `; ${blank} ${blank === 1 ? 'is' : 'are'} blank`;
  return line('holds', `${entriesOf(judged)} entries of ${pointsOf(judged)} in band${gaps}.`, judged);
}

function entriesOf(readings: readonly JudgedReading[]): number {
  return readings.reduce((count, { alike = 0 }) => count + 1 + alike, 0);
}

function dischargeLine(board: GoBackCase): GoBackLine {
  const { readings, mark } = board;
  const spells = unpoweredAfterPower(board);
  const line = lineOf('discharge');
  if (spells.length === 0) return line('does not apply', 'No unpowered work followed power.', []);
  const last = spells.map(({ from, to }) =>
    readings.slice(from, to).findLast((reading) => isBulkVolts(board, reading) && reading.state === 'value'),
  );
  const measured = last.flatMap((reading) => reading ?? []);
  const low = measured.filter(({ value }) => Math.abs(value) < TOUCH_LIMIT);
  const charged = measured.filter(({ stage, value }) => Math.abs(value) >= TOUCH_LIMIT && !isPowered(stage));
  if (charged.length > 0)
    return line('does not hold', `${said(charged, mark)} before unpowered work went on.`, charged);
  if (low.length < spells.length) {
    const times = spells.length - low.length;
    return line('not measured', `Unpowered work followed power ${times === 1 ? 'once' : `${times} times`} with no reading of the bulk capacitor below 60 V d.c. between.`, low); // prettier-ignore
  }
  return line('holds', `${said(low, mark)} before unpowered work went on.`, low);
}

/** Spans of readings from the last powered one of a spell, itself included, to the first unpowered work after it. */
function unpoweredAfterPower(board: GoBackCase): readonly { from: number; to: number }[] {
  const spells: { from: number; to: number }[] = [];
  let from: number | undefined;
  board.readings.forEach((reading, at) => {
    if (isPowered(reading.stage)) from = at;
    else if (from !== undefined && reading.specimen === 'board' && !isBulkVolts(board, reading)) {
      spells.push({ from, to: at });
      from = undefined;
    }
  });
  return spells;
}

function metersLine(board: GoBackCase): GoBackLine {
  const after = afterLastWork(board).filter(({ stage }) => isPowered(stage));
  const faults = board.meterFaults ?? new Map<string, string>();
  const off = after.filter(({ meter }) => faults.has(meter));
  const line = lineOf('meters');
  if (after.length === 0)
    return line('does not apply', 'No powered reading was taken after the last part was fitted.', []);
  if (off.length > 0) {
    const names = [...new Set(off.map(({ meter }) => meter))];
    return line('does not hold', names.map((name) => faults.get(name) ?? '').join(' '), off);
  }
  const unnamed = after.some(({ meter }) => meter === '');
  const names = [...new Set(after.map(({ meter }) => meter))].filter((name) => name !== '').sort();
  if (names.length === 0) return line('not measured', 'No reading says which meter took it.', after);
  return line(
    'holds',
    `Nothing is known against ${listed(names)}${unnamed ? '; some readings name no meter' : ''}.`,
    after,
  );
}

/** Readings after the last one that was taken of the unpowered board; all of them where it never was. */
function afterLastWork(board: GoBackCase): readonly JudgedReading[] {
  const last = board.readings.findLastIndex(
    (reading) => !isPowered(reading.stage) && reading.specimen === 'board' && !isBulkVolts(board, reading),
  );
  return board.readings.slice(last + 1);
}

function isBulkVolts(board: GoBackCase, { point, mode }: Reading): boolean {
  return mode === 'DC volts' && pointOf(board, point).role === 'bulk';
}

/** Whether a band settled it either way. */
function isJudged({ verdict }: JudgedReading): boolean {
  return (verdict & VERDICT_MASK) >= PASS;
}

function isPoweredMode(mode: string): boolean {
  return mode === 'DC volts' || mode === 'AC volts' || mode === 'current';
}

function pointOf(board: GoBackCase, name: string) {
  return board.family?.points.find((point) => point.name === name) ?? pointFromName(name);
}

function partAt(board: GoBackCase, point: string): string | undefined {
  return pointOf(board, point).part;
}

function isFuse(board: GoBackCase, point: string): boolean {
  return partClass(partAt(board, point) ?? designatorOf(point) ?? '') === 'F';
}

/** The last reading of each point and mode, in order of time. */
function lastOfEach(readings: readonly JudgedReading[]): readonly JudgedReading[] {
  const last = new Map(readings.map((reading) => [`${reading.mode} ${reading.point}`, reading]));
  return readings.filter((reading) => last.get(`${reading.mode} ${reading.point}`) === reading);
}

/** Makes lines of one rule from their standing, their sentence, and the readings that they rest on. */
function lineOf(rule: GoBackRule): (standing: Standing, sentence: string, on: readonly JudgedReading[]) => GoBackLine {
  return (standing, sentence, on) => ({
    rule,
    must: GO_BACK_RULES[rule],
    standing,
    sentence,
    rows: on.map(({ row }) => row),
  });
}

/** What readings said, as `Q1 D→S read 0.6 Ω and D3 A→K read over range`. */
function said(readings: readonly JudgedReading[], mark: DecimalMark): string {
  return listed(
    readings.map((reading) => {
      const { point, state, value, mode, word } = reading;
      const answer = state === 'value' ? joinQuantity(formatShown(value, MODE_UNITS[mode], reading, mark)) : state;
      return `${point} read ${answer}${word === undefined ? '' : ` (${word})`}`;
    }),
  );
}

function pointsOf(readings: readonly JudgedReading[]): string {
  return listed([...new Set(readings.map(({ point }) => point))]);
}

function were(items: readonly unknown[]): string {
  return items.length === 1 ? 'was' : 'were';
}

function counted(items: readonly unknown[], noun: string): string {
  return `${items.length} ${items.length === 1 ? noun : `${noun}s`}`;
}

function listed(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
}

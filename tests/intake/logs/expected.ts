import { isDayOnly } from '../../../src/domain/day.ts';
import type { Mode, Reading, State } from '../../../src/domain/reading.ts';
import type { Repair } from '../../../src/domain/repair.ts';

/** What of a reading a case states; compared as text, so that a difference reads like one. */
const PREFIX: Readonly<Record<string, number>> = { p: -12, n: -9, µ: -6, m: -3, '': 0, k: 3, M: 6, G: 9 };
const MODE_OF_UNIT: Readonly<Record<string, Mode>> = { V: 'DC volts', Ω: 'resistance', F: 'capacitance', A: 'current' };
const UNIT_OF_MODE: Readonly<Record<Mode, string>> = {
  continuity: 'Ω', resistance: 'Ω', diode: 'V', capacitance: 'F', ESR: 'Ω', 'DC volts': 'V', 'AC volts': 'V', current: 'A',
}; // prettier-ignore
const MODE_WORDS: Readonly<Record<string, Mode>> = { AC: 'AC volts', diode: 'diode', ESR: 'ESR', cont: 'continuity' };

function readingText(state: State, mode: Mode, value: number): string {
  const unit = UNIT_OF_MODE[mode];
  const number = Number.isNaN(value) ? '' : ` ${Number(value.toPrecision(9))} ${unit}`;
  return `${mode}: ${state}${number}`;
}

/** The written reading of a case. @throws where it is written amiss */
function statedReading(text: string): string {
  if (text === 'beep' || text === 'no beep') return readingText(text, 'continuity', NaN);
  const found = /^(?:(OL|UR) ?)?(?:([−-]?[\d.]+) ?)?([pnµmkMG]?)([VΩFA])(?: (AC|diode|ESR|cont))?$/u.exec(text);
  if (found === null) throw new Error(`“${text}” is no reading of a case.`);
  const [, over, number, prefix = '', unit = '', word] = found;
  const mode = word === undefined ? MODE_OF_UNIT[unit]! : MODE_WORDS[word]!;
  const value = number === undefined ? NaN : Number(`${number.replace('−', '-')}e${PREFIX[prefix]!}`);
  const state = over === 'OL' ? 'over-range' : over === 'UR' ? 'below-range' : 'value';
  return readingText(state, mode, value);
}

function momentText(time: number): string {
  if (isDayOnly(time)) return new Date(time).toISOString().slice(0, 10);
  return Number.isNaN(time) ? '-' : new Date(time).toISOString().slice(0, 23).replace(/:00\.000$/, '').replace('.000', ''); // prettier-ignore
}

function table(text: string, width: number): string[][] {
  let above: string[] = [];
  return text
    .trim()
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const parts = line.split('|').map((part) => part.trim());
      if (parts.length !== width) throw new Error(`“${line}” has not ${width} parts.`);
      above = parts.map((part, at) => (part === '' ? (above[at] ?? '') : at === 0 ? withDay(part, above[0]) : part));
      return above;
    });
}

function withDay(time: string, above = ''): string {
  return /^\d\d:/.test(time) ? `${above.slice(0, 10)}T${time}` : time.replace(' ', 'T');
}

/** The readings that a case states, as texts to compare. */
export function statedReadings(text: string): string[] {
  return table(text, 5).map(([time = '', repair, point, stage, reading = '']) => {
    return [time, repair, point, stage, statedReading(reading)].join(' | ');
  });
}

/** The readings that a log gave, as texts to compare; an empty cell says nothing, and is none. */
export function givenReadings(readings: readonly Reading[]): string[] {
  return readings
    .filter(({ state }) => state !== 'blank')
    .map(({ time, repair, point, stage, mode, state, value }) =>
      [momentText(time), repair, point, stage, readingText(state, mode, value)].join(' | '),
    );
}

export function statedRepairs(text: string): string[] {
  return text
    .trim()
    .split('\n')
    .map((line) => line.split('|').map((part) => part.trim()).join(' | ')); // prettier-ignore
}

export function givenRepairs(repairs: readonly Repair[]): string[] {
  const day = (time: number): string => (Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 10));
  return repairs.map(({ id, family, received, returned, outcome, replaced }) =>
    [id, family, day(received), day(returned), outcome, replaced.join(' ')].join(' | '),
  );
}

/** Those of `some` that `others` lack, each as often as it is missing. */
export function without(some: readonly string[], others: readonly string[]): string[] {
  const left = [...others];
  return some.filter((entry) => {
    const at = left.indexOf(entry);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

/** How a log came out against what its case states. */
export interface Outcome {
  readonly expected: number;
  readonly right: number;
  /** Good readings for which a row was set aside. */
  readonly setAside: number;
  /** Readings that are wrong, invented, or lost without a row set aside. */
  readonly wrong: number;
  readonly questions: number;
  /** All that differs, a sentence each. */
  readonly faults: readonly string[];
}

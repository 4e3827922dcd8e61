import { MODE_UNITS, type Mode, type Stage } from '../domain/reading.ts';
import { parseUnit, type UnitUse } from './unit-text.ts';
import { readMode, readStage } from './words.ts';

/** What the header of a column of readings says: the name it starts with, and unit, mode and stage where it gives them. */
export interface HeaderText {
  /** The header without unit, mode and stage; a test point's name where the column is one. */
  readonly name: string;
  readonly unit: UnitUse | undefined;
  readonly mode: Mode | undefined;
  readonly stage: Stage | undefined;
}

const LONGEST = 200;

/**
 * Takes a header apart: `Q1 D→S part out [kΩ]` → name `Q1 D→S`, stage part out, kilohms, resistance. A unit or mode in brackets is stated,
 * so the words before it are the name: the A of `backlight A (V DC)` is no current, the R of `sense R (mV)` no resistance. Lone words
 * such as `out` are a stage only where nothing of the kind is said elsewhere.
 * @param statesStage - whether the file states its stages elsewhere
 */
export function readHeader(header: string, statesStage = false): HeaderText {
  let name = header.slice(0, LONGEST).trim();
  let unit: UnitUse | undefined;
  const bracket = /^(.*?)\s*[[({]([^[\](){}]{1,24})[\])}]\s*$/.exec(name) ?? /^(.*\S)\s*[,/]\s*(\S{1,6})$/.exec(name);
  let mode: Mode | undefined;
  if (bracket) {
    unit = parseUnit(bracket[2]!);
    mode = unit ? undefined : readMode(bracket[2]!);
    if (unit || mode) name = bracket[1]!;
  }
  const words = name.split(/[\s_]+/).filter((word) => word !== '');
  const all = words.length;
  let stage: Stage | undefined;
  for (const count of statesStage ? [] : [3, 2, 1]) {
    if (stage || words.length < count) continue;
    const end = readStage(words.slice(-count).join(' '));
    const start = readStage(words.slice(0, count).join(' '));
    stage = end ?? start;
    if (end) words.splice(-count);
    else if (start) words.splice(0, count);
  }
  for (const count of [2, 1]) {
    if (mode || words.length < count) continue;
    const end = readMode(words.slice(-count).join(' '));
    if (!end || (unit?.unit !== undefined && !isOfUnit(end, words.at(-1)!, unit))) continue;
    mode = end;
    unit ??= count === 1 ? parseUnit(words.at(-1)!) : undefined;
    words.splice(-count);
  }
  if (words.length < all) name = words.join(/\s/.test(name) ? ' ' : '_');
  return { name, unit, mode: mode ?? unit?.mode, stage };
}

/** Whether a mode's word may stand beside a stated unit: `ESR [Ω]`, but neither `bulk cap [V]` nor the letter of `sense R [Ω]`. */
function isOfUnit(mode: Mode, word: string, unit: UnitUse): boolean {
  return word.length > 1 && MODE_UNITS[mode] === unit.unit && (unit.mode === undefined || unit.mode === mode);
}

import type { Mode, Stage } from '../domain/reading.ts';
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

/** Takes a header apart: `Q1 D→S part out [kΩ]` → name `Q1 D→S`, stage part out, kilohms, resistance. */
export function readHeader(header: string): HeaderText {
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
  for (const count of [3, 2, 1]) {
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
    if (!end) continue;
    mode = end;
    unit ??= count === 1 ? parseUnit(words.at(-1)!) : undefined;
    words.splice(-count);
  }
  if (words.length < all) name = words.join(/\s/.test(name) ? ' ' : '_');
  return { name, unit, mode: mode ?? unit?.mode, stage };
}

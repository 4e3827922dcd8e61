import type { Band } from '../domain/band.ts';
import type { Family } from '../domain/family.ts';
import type { Meter } from '../domain/meter.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import type { Reading } from '../domain/reading.ts';
import type { Repair } from '../domain/repair.ts';
import type { PartWord } from '../domain/verdict.ts';
import type { Held } from './go-back-case.ts';
import { metersLine } from './go-back-meters.ts';
import { dischargeLine, liveLine, runInLine } from './go-back-powered.ts';
import { fuseLine, shortsLine } from './go-back-refitted.ts';

/** What must hold before a board goes back, by the names under which a technician may overrule each. */
export const GO_BACK_RULES = {
  shorts: 'No short or leak is left where parts were refitted.',
  fuse: 'The fuse is good.',
  live: 'Every live point is measured after the last part was fitted, has a band, and is in band.',
  'run-in': 'The run-in shows no excursion.',
  discharge: 'The bulk capacitor was measured below 60 V d.c. before each unpowered work that followed power.',
  meters: 'The meters behind the live readings were neither overdue for calibration nor known to be off.',
} as const;
export type GoBackRule = keyof typeof GO_BACK_RULES;

/** `no band`: measured, but nothing says what it should read; `does not apply`: the repair holds nothing that the rule speaks of. */
export type Standing = 'holds' | 'does not hold' | 'not measured' | 'no band' | 'does not apply';

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

/** A meter that read off for a time, both ends included, in milliseconds of local wall time. */
export interface MeterFault {
  readonly meter: string;
  readonly since: number;
  readonly until: number;
  readonly sentence: string;
}

export interface GoBackCase {
  readonly repair: Repair;
  readonly family?: Family;
  /** The bands of its family. */
  readonly bands: readonly Band[];
  /** In order of time. */
  readonly readings: readonly JudgedReading[];
  /** The bench's meters, with the day on which each falls due where that is known. */
  readonly meters: readonly Meter[];
  /** What the log itself says against meters. */
  readonly meterFaults: readonly MeterFault[];
  readonly mark: DecimalMark;
}

const HOLDS: Readonly<Record<GoBackRule, (board: GoBackCase) => Held>> = {
  shorts: shortsLine,
  fuse: fuseLine,
  live: liveLine,
  'run-in': runInLine,
  discharge: dischargeLine,
  meters: metersLine,
};

/** Holds a repair's readings against every rule, in the order of the work. Nothing is taken for granted: what was not measured says so. */
export function goBackLines(board: GoBackCase): readonly GoBackLine[] {
  const rules = Object.keys(GO_BACK_RULES) as GoBackRule[];
  return rules.map((rule) => {
    const { standing, sentence, on } = HOLDS[rule](board);
    return { rule, must: GO_BACK_RULES[rule], standing, sentence, rows: on.map(({ row }) => row) };
  });
}

/** Whether a board may go back: every line holds, does not apply, or was overruled. */
export function mayGoBack(lines: readonly { readonly standing: Standing; readonly overruled?: string }[]): boolean {
  return lines.every(
    ({ standing, overruled }) => standing === 'holds' || standing === 'does not apply' || overruled !== undefined,
  );
}

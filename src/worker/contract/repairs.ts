import type { TraceColumns, TraceWindow } from '../../charts/trace.ts';
import type { Limits } from '../../domain/band.ts';
import type { Part } from '../../domain/family.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Mode } from '../../domain/reading.ts';
import type { RepairFault } from '../../domain/repair-fault.ts';
import type { Repair } from '../../domain/repair.ts';
import type { PartWord } from '../../domain/verdict.ts';
import type { GoBackLine, GoBackRule } from '../../judging/go-back.ts';
import type { RunInSummary } from '../../patterns/run-in.ts';
import type { BenchSummary } from './memory.ts';
import type { ReadingRow } from './readings.ts';

/** One line of the list of repairs. */
export interface RepairLine {
  readonly repair: Repair;
  readonly readings: number;
  readonly outOfBand: number;
  /** Whether the table of repairs knows it; else it is known from readings alone. */
  readonly listed: boolean;
}

/** What a repair's readings prove of a part; apart from it, whether it was replaced. */
export interface PartEvidence {
  readonly part: string;
  readonly finding: 'failed' | 'good' | 'contradictory' | 'suspected' | 'cleared' | 'not measured';
  readonly word?: PartWord;
  /** What the finding rests on, as a phrase. */
  readonly reason: string;
  readonly replaced: boolean;
}

export interface RepairStory {
  readonly line: RepairLine;
  /** In order of time. */
  readonly readings: readonly ReadingRow[];
  readonly parts: readonly PartEvidence[];
  /** Sentences on the board as a whole, such as a boost stage that is not running. */
  readonly findings: readonly string[];
  readonly comebacks: readonly string[];
  /** Run-in entries that are left out of the readings, being too many to list. */
  readonly runInLeftOut?: number;
}

/** What to measure next on a board, from how its family failed before. */
export interface WhatNext {
  /**
   * `lift`: parts read bad together in circuit, and one has to come out; `probe`: nothing is found yet; `found`: a part is proved failed;
   * `too thin`: too few earlier repairs to tell from; `all measured`: no check is left that past faults would show at.
   */
  readonly kind: 'lift' | 'probe' | 'found' | 'too thin' | 'all measured';
  /** What to do and why, in one sentence. */
  readonly sentence: string;
  /** What is still in question, the next first; parts that one check shows together stand together. */
  readonly inQuestion: readonly PartInQuestion[];
  /** From 0 to 1: the chance that none of these shows the fault; where several may have failed at once, absent. */
  readonly noneOfThese?: number;
  /** How many earlier repairs the chances rest on; where the complaint counts, how many of them were under it. */
  readonly restsOn?: { readonly repairs: number; readonly underComplaint?: number };
}

export interface PartInQuestion {
  readonly point: string;
  readonly parts: readonly string[];
  /** From 0 to 1: that the part has failed, or that this check is the first to show the fault. */
  readonly chance: number;
  /** Absent where it is not known how long it takes. */
  readonly seconds?: number;
}

/** One rail as it was logged in a repair's run-in. */
export interface RunInLine {
  readonly point: string;
  readonly mode: Mode;
  readonly limits?: Limits;
  /** Power of ten of its coarsest last digit. */
  readonly lastDigit: number;
  /** Absent where no entry holds a number and a time. */
  readonly summary?: RunInSummary;
  /** How often the clock jumped back from one line of a file to the next. */
  readonly backwards: number;
  /** The family's other run-ins of this point, earliest first, at most thirty. */
  readonly others: readonly { readonly repair: string; readonly summary: RunInSummary }[];
}

/** A run-in as it is drawn: its window in as many columns as there are pixels, and all the time that it covers. */
export interface RunInDrawing extends TraceColumns {
  readonly whole: TraceWindow;
}

/** One thing that must hold before a board goes back, and why the technician lets it pass although it does not. */
export interface GoBackEntry extends Omit<GoBackLine, 'rows'> {
  /** What it rests on, in order of time; of very many the first. */
  readonly readings: readonly ReadingRow[];
  readonly readingsInAll: number;
  readonly overruled?: string;
}

/** Whether one board may go back, and every line that this rests on. */
export interface GoBackAnswer {
  readonly repair: string;
  readonly goBack: readonly GoBackEntry[];
  /** Whether every line holds, does not apply, or was overruled. */
  readonly mayGoBack: boolean;
}

/** Readings of one part in one mode, side by side: on the board as received, lifted off it, and of a new part of the same type. */
export interface PartComparison {
  readonly point: string;
  readonly inCircuit?: ReadingRow;
  readonly outOfCircuit?: ReadingRow;
  readonly newPart?: ReadingRow;
  /** Out of circuit, else in circuit, over the new part, with as many significant digits as the coarser of the two showed. */
  readonly ratio?: { readonly value: number; readonly digits: number };
}

/** What it takes to decide about one board. */
export interface RepairDecision extends GoBackAnswer {
  readonly comparisons: readonly PartComparison[];
  /** What cannot be as it stands in the data, each a sentence. */
  readonly oddities: readonly string[];
  /** The parts that its family declares. */
  readonly parts: readonly Part[];
}

/** Repairs. */
export interface RepairCalls {
  repairs(): readonly RepairLine[];
  /** @param mark - the decimal mark for numbers in its sentences */
  repair(id: string, mark?: DecimalMark): RepairStory | undefined;
  /** @param mark - the decimal mark for numbers in its sentences */
  decision(id: string, mark?: DecimalMark): RepairDecision | undefined;
  /**
   * Whether each of some boards may go back, the same answer as in its `decision`; those that nothing names are left out.
   * @param mark - the decimal mark for numbers in its sentences
   */
  goBackAnswers(ids: readonly string[], mark?: DecimalMark): readonly GoBackAnswer[];
  /** @param mark - the decimal mark for numbers in its sentence */
  whatNext(repair: string, mark?: DecimalMark): WhatNext | undefined;
  runIns(repair: string): readonly RunInLine[];
  /** A run-in by min–max decimation; without a window all of it. Undefined where it has no time. */
  runInTrace(
    repair: string,
    point: string,
    mode: Mode,
    columns: number,
    window?: TraceWindow,
  ): RunInDrawing | undefined;
  /** Lets a line pass for one repair, with the reason, or takes that back where the reason is empty. @throws where nothing names the repair */
  overruleLine(repair: string, rule: GoBackRule, reason: string): BenchSummary;
  /** Why a repair cannot be kept; undefined where it can. @param isNew - whether it may only be added */
  repairFault(repair: Repair, isNew?: boolean): RepairFault | undefined;
  /** Adds a repair or replaces the one of its id. @param isNew - whether it may only be added @throws where it cannot be kept, with a sentence */
  setRepair(repair: Repair, isNew?: boolean): BenchSummary;
}

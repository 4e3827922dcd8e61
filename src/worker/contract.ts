import type { Band, Expectation, Limits } from '../domain/band.ts';
import type { Check } from '../domain/check.ts';
import type { Family, Part } from '../domain/family.ts';
import type { Encoding, FilePlan, Preview, Separator } from '../domain/file-plan.ts';
import type { ImportRecord, SetAside } from '../domain/import-record.ts';
import type { Meter } from '../domain/meter.ts';
import type { NameAnswer, NameKind } from '../domain/name-answer.ts';
import type { DecimalMark, Shown, Unit } from '../domain/quantity.ts';
import type { EditField, ReadingPatch } from '../domain/reading-edit.ts';
import type { Mode, Reading } from '../domain/reading.ts';
import type { DerivedField } from '../columns/derived.ts';
import type { GroupField } from '../columns/groups.ts';
import type { ListedField, ReadingsQuery } from '../columns/query.ts';
import type { Repair } from '../domain/repair.ts';
import type { PartWord, Verdict } from '../domain/verdict.ts';
import type { TraceColumns, TraceWindow } from '../charts/trace.ts';
import type { GoBackLine, GoBackRule } from '../judging/go-back.ts';
import type { RunInSummary } from '../patterns/run-in.ts';

import type { Ledger } from '../store/kept.ts';
import type { Trial } from '../learning/trial.ts';
import type { ComplaintMatrix } from '../patterns/complaints.ts';
import type { Holding, HoldingTimes } from '../patterns/do-repairs-hold.ts';
import type { FailureSignature } from '../patterns/failure-signatures.ts';
import type { PartPair } from '../patterns/failing-together.ts';
import type { InCircuitVerdict } from '../patterns/in-circuit-verdicts.ts';
import type { MaskedFailures } from '../patterns/masked-failures.ts';
import type { MeterOffsets, MeterPeriod } from '../patterns/meter-offsets.ts';
import type { PartOverTime } from '../patterns/over-time.ts';
import type { PartFailureCount } from '../patterns/part-failures.ts';
import type { PartsKit } from '../patterns/parts-kit.ts';
import type { BoardSoFar, ProbingOrder } from '../patterns/probing-order.ts';
import type { Renewal } from '../patterns/renewal.ts';
import type { ClassContrast } from '../patterns/standing-out.ts';
import type { PartStock } from '../patterns/stock.ts';
import type { WhetherItPays } from '../patterns/whether-it-pays.ts';
import type { LogRank } from '../statistics/survival/log-rank.ts';

export type { Trial } from '../learning/trial.ts';
export type { Holding } from '../patterns/do-repairs-hold.ts';
export type { PartOverTime } from '../patterns/over-time.ts';
export type { ProbingOrder } from '../patterns/probing-order.ts';
export type { PartsKit } from '../patterns/parts-kit.ts';
export type { Ledger } from '../store/kept.ts';
export type { NameAnswer } from '../domain/name-answer.ts';
export type { DerivedField } from '../columns/derived.ts';
export type { GroupField, Grouping } from '../columns/groups.ts';
export type { Filter, ListedField, ReadingsQuery, SortField } from '../columns/query.ts';

export interface ReadingsCount {
  readonly readings: number;
  readonly outOfBand: number;
  readonly repairs: number;
  /** Lines that list them, groups' own lines included, where the query groups. */
  readonly lines?: number;
}

/** A reading as the grid shows it. */
export interface ReadingRow extends Reading {
  /** Row of the log, which names the reading while this log is open. */
  readonly row: number;
  /** Verdict and side, coded as `domain/verdict.ts` says. */
  readonly verdict: number;
  /** The plain word, where the point is a part's. */
  readonly word?: PartWord;
  readonly limits?: Limits;
  readonly band?: Band;
  /** Expanded uncertainty U in the SI unit; `NaN` where the meter's accuracy is unknown. */
  readonly uncertainty: number;
  /** Original values of what was edited by hand, where anything was. */
  readonly original?: ReadingPatch;
  /** The derived fields that were asked for; `NaN` where the reading has none. */
  readonly derived?: Readonly<Partial<Record<DerivedField, number>>>;
}

export type { EditField, ReadingPatch } from '../domain/reading-edit.ts';

/** A text for one field of the readings on the lines from `first` to `last`, both included. */
export interface CellText {
  readonly first: number;
  readonly last: number;
  readonly field: EditField;
  readonly text: string;
}

/** Why a text cannot be a field of the reading on a line, as sentences. */
export interface EditFault {
  readonly line: number;
  readonly field: EditField;
  readonly fault: string;
}

/** What an edit changes, or would; where there are faults it changes nothing. Faults and examples are told up to 200. */
export interface EditAnswer {
  readonly changed: number;
  readonly faults: readonly EditFault[];
  readonly examples: readonly {
    readonly line: number;
    readonly field: EditField;
    readonly before: Reading;
    readonly after: Reading;
  }[];
}

/** What was edited by hand so far. */
export interface EditsSoFar {
  /** Readings that are not as they were brought in. */
  readonly changed: number;
  readonly deleted: number;
  /** Edits that can be taken back, and done again. */
  readonly steps: number;
  readonly undone: number;
}

/** The line of a group in the grid. */
export interface GroupLine {
  /** What its readings share; empty where they state nothing. */
  readonly group: string;
  readonly by: GroupField;
  readonly folded: boolean;
  readonly readings: number;
  readonly outOfBand: number;
  /** Readings held against a band, of which those out of band are a share. */
  readonly judged: number;
  readonly overRange: number;
  /** Median and raw median absolute deviation of its numbers, where all of them share one unit. */
  readonly numbers?: {
    readonly count: number;
    readonly median: number;
    readonly spread: number;
    readonly unit: Unit;
    /** Power of ten of the coarsest last digit among them. */
    readonly lastDigit: number;
  };
}

export type GridLine = ReadingRow | GroupLine;

/** What the numbers of some rows come to; rows of another unit or without a number are counted apart. */
export interface SelectionSummary {
  readonly rows: number;
  readonly outOfBand: number;
  readonly overRange: number;
  /** Statistics of the rows that hold a number, where all of them share one unit. */
  readonly numbers?: {
    readonly count: number;
    readonly mean: number;
    readonly median: number;
    readonly deviation: number;
    readonly minimum: number;
    readonly maximum: number;
    /** How the meter showed the least and the greatest. */
    readonly minimumShown: Shown;
    readonly maximumShown: Shown;
    readonly unit: Unit;
    /** Power of ten of the coarsest last digit among them. */
    readonly lastDigit: number;
  };
}

export interface FacetValue {
  readonly value: string;
  readonly count: number;
}

/** One line of the list of repairs. */
export interface RepairLine {
  readonly repair: Repair;
  readonly readings: number;
  readonly outOfBand: number;
  /** Live readings out of band after the last work on the board. */
  readonly liveOutOfBand: number;
  readonly liveReadings: number;
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
  readonly inQuestion: readonly {
    readonly point: string;
    readonly parts: readonly string[];
    /** From 0 to 1. */
    readonly chance: number;
    /** Absent where it is not known how long it takes. */
    readonly seconds?: number;
  }[];
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
export interface GoBackEntry extends GoBackLine {
  readonly overruled?: string;
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
export interface RepairDecision {
  readonly goBack: readonly GoBackEntry[];
  /** Whether every line holds, does not apply, or was overruled. */
  readonly mayGoBack: boolean;
  readonly comparisons: readonly PartComparison[];
  /** What cannot be as it stands in the data, each a sentence. */
  readonly oddities: readonly string[];
  /** The parts that its family declares. */
  readonly parts: readonly Part[];
}

/** A band as the table shows it, with what it judged. */
export interface BandLine {
  readonly band: Band;
  readonly readings: number;
  readonly outOfBand: number;
}

export interface BandsOverview {
  readonly families: readonly Family[];
  readonly bands: readonly BandLine[];
  /** Checks with readings and no band. */
  readonly without: readonly {
    readonly family: string;
    readonly point: string;
    readonly stage: string;
    readonly mode: string;
    readonly readings: number;
  }[];
}

/** Which repairs of a family to look at, and what to work out from them. */
export interface FamilyQuery {
  readonly family: string;
  /** Begun on this day or later; local wall milliseconds counted as if UTC, as all times. */
  readonly from?: number;
  readonly to?: number;
  readonly complaint?: string;
  /** Repairs with a reading by this meter. */
  readonly meter?: string;
  /** The day up to which boards were watched for coming back. */
  readonly today: number;
  /** Share of repairs that a parts kit shall cover, above 0 and up to 1. */
  readonly kitShare: number;
  readonly stockWeeks: number;
  /** Probability with which the stock shall suffice, between 0 and 1. */
  readonly stockEnough: number;
  /** Price of each part, in the bench's money. */
  readonly prices?: readonly (readonly [string, number])[];
  readonly fee?: number;
  /** What is known of a board on the bench, to narrow what to probe first. */
  readonly soFar?: BoardSoFar;
}

/** Do repairs hold: time until a board came back. */
export interface HoldingAnswer {
  readonly all: Holding | undefined;
  readonly leftOut: HoldingTimes['leftOut'];
  readonly groups: readonly { readonly renewal: Renewal; readonly holding: Holding | undefined }[];
  /** Only what measured bad against the whole group renewed. */
  readonly renewalTest: LogRank | undefined;
  readonly others: Holding | undefined;
  readonly othersTest: LogRank | undefined;
}

/** How a family fails, and what to do about it. What is undefined rests on too few repairs to say. */
export interface FamilyPage {
  readonly family: string;
  readonly allRepairs: number;
  /** Repairs that pass the query. */
  readonly repairs: number;
  readonly choices: {
    readonly complaints: readonly string[];
    readonly meters: readonly string[];
    readonly first: number;
    readonly last: number;
  };
  readonly failures: readonly PartFailureCount[];
  readonly masked: MaskedFailures;
  readonly inCircuit: readonly InCircuitVerdict[];
  readonly pairs: readonly PartPair[];
  readonly signatures: readonly FailureSignature[];
  readonly complaints: ComplaintMatrix;
  readonly standingOut: readonly ClassContrast[] | undefined;
  readonly overTime: readonly PartOverTime[];
  readonly holding: HoldingAnswer;
  readonly live: readonly { readonly check: Check; readonly points: PastPoints }[];
  readonly probing: ProbingOrder | undefined;
  readonly kit: PartsKit | undefined;
  readonly kitCurve: readonly PartsKit[];
  readonly stock: readonly PartStock[] | undefined;
  readonly pays: WhetherItPays;
}

/** What readings say of the meters that took them. */
export interface MetersOverview extends MeterOffsets {
  readonly periods: readonly (MeterPeriod & {
    /** Readings whose place in or out of band the offset may have turned. */
    readonly turned: number;
  })[];
}

export type PartFailures = PartFailureCount;

export interface FamilyPatterns {
  readonly family: string;
  readonly repairs: number;
  readonly parts: readonly PartFailures[];
}

export interface FamilyLine {
  readonly family: string;
  readonly repairs: number;
  readonly readings: number;
  readonly outOfBand: number;
  readonly comebacks: number;
  readonly bands: number;
}

/** Past readings of one check, as the band editor draws them; columns of equal length. */
export interface PastPoints {
  readonly unit: string;
  readonly value: Float64Array;
  /** Index into `domain/reading.ts` STATES. */
  readonly state: Uint8Array;
  /** 0 unknown, 1 good, 2 bad. */
  readonly standing: Uint8Array;
  /** 1 where the reading was taken as the board went back. */
  readonly returned: Uint8Array;
  /** Rows of the log. */
  readonly rows: Uint32Array;
  /** Power of ten of the coarsest last digit. */
  readonly lastDigit: number;
  readonly band?: Band;
  readonly limits?: Limits;
}

/** What a band is learned with: the share of boards it shall hold, how surely, on which sides, and which screened rows stay in. */
export interface LearningSettings {
  readonly content: number;
  readonly confidence: number;
  readonly sides: 'both' | 'at least' | 'at most';
  readonly keptRows: readonly number[];
}

/** A proposed band with what backs it. */
export interface ProposalLine {
  readonly check: Check;
  /** Good readings there are, over-range ones included. */
  readonly readings: number;
  /** Why no band can be proposed, as a sentence; else `proposal` is there. */
  readonly reason?: string;
  readonly proposal?: {
    readonly band: Band;
    readonly limits: Limits;
    readonly method: 'normal' | 'distribution-free' | 'open';
    readonly scale: 'linear' | 'log';
    readonly count: number;
    readonly overRange: number;
    /** Anderson–Darling p, where there were enough readings. */
    readonly normality?: number;
    readonly removed: readonly {
      readonly row: number;
      readonly value: number;
      readonly statistic: number;
      readonly critical: number;
      readonly modifiedZ: number;
      readonly kept: boolean;
    }[];
    /** What to be careful about, each a sentence. */
    readonly warnings: readonly string[];
    /** `Infinity` where no number of boards will do. */
    readonly boardsWanted: number;
    readonly trial: Trial;
  };
  /** The trial of the present band, where there is one. */
  readonly present?: { readonly band: Band; readonly trial: Trial };
}

/** What an accepted change did to the verdicts of past readings. */
export interface Rejudged {
  readonly readings: number;
  /** How many readings went from one verdict to another. */
  readonly changes: readonly { readonly from: Verdict; readonly to: Verdict; readonly readings: number }[];
  /** Repairs with a reading whose verdict changed, first a hundred of them. */
  readonly repairs: readonly string[];
}

export interface BenchSummary {
  readonly readings: number;
  readonly repairs: number;
  readonly families: number;
  readonly bands: number;
}

/** Encoding and separator where the technician has chosen them. */
export interface PlanChoices {
  readonly encoding?: Encoding;
  readonly separator?: Separator;
}

export interface ShiftOverview {
  readonly imports: readonly ImportRecord[];
  readonly setAside: readonly SetAside[];
}

/** What became of the files of one drop, in their order. */
export interface ImportOutcome {
  readonly records: readonly ImportRecord[];
  readonly setAside: readonly SetAside[];
  /** Files that could not be read at all. */
  readonly refused: readonly { readonly file: string; readonly reason: string }[];
}

/** A name that the readings brought and nothing else knows. */
export interface UnknownName {
  readonly kind: NameKind;
  readonly name: string;
  /** The family of a point. */
  readonly family?: string;
  readonly readings: number;
  /** Names that it may be another spelling of, likeliest first. */
  readonly alike: readonly string[];
}

/** What became of opening what is kept. */
export interface KeptAnswer {
  /** Whether changes are kept from now on; where not, `reason` says why. */
  readonly keeps: boolean;
  readonly reason?: string;
  /** Whether there was a bench of the technician's own. */
  readonly found: boolean;
  /** What is missing, damaged or was interrupted, each a sentence. */
  readonly faults: readonly string[];
  readonly ledger?: Ledger;
  readonly canUndoSwitch: boolean;
}

/** What a backup holds, beside what is kept now. */
export interface BackupContents {
  readonly imports: number;
  readonly readings: number;
  readonly repairs: number;
  readonly bands: number;
  readonly families: number;
  readonly present: { readonly imports: number; readonly readings: number; readonly bands: number };
  /** Bands that it would add, change and take away. */
  readonly bandsAdded: number;
  readonly bandsChanged: number;
  readonly bandsGone: number;
}

export interface ImportProgress {
  readonly file: string;
  readonly fileNumber: number;
  readonly files: number;
  readonly bytes: number;
  readonly totalBytes: number;
  readonly rows: number;
}

/** Everything that the page can ask of the worker. */
export interface BenchCalls {
  summary(): BenchSummary;
  /** How a file would be read; a map remembered for its header is used, and leaves no question about columns. */
  planFile(file: File, choices?: PlanChoices): FilePlan | { readonly refused: string };
  previewFile(file: File, plan: FilePlan): Preview;
  /** Reads files in, each whole or not at all; a plan may be given for a file by its place. */
  bringIn(files: readonly File[], plans?: readonly (FilePlan | undefined)[]): ImportOutcome;
  /** The bytes of an import as they were brought in; undefined where they are not kept. */
  original(hash: string): Uint8Array<ArrayBuffer> | undefined;
  /** Takes a whole import back. */
  takeBack(hash: string): BenchSummary;
  /** Reads a mended row again in place of the one that was set aside; undefined where it was admitted, else what is still wrong with it. */
  mendRow(file: string, line: number, content: string): string | undefined;
  /** Lets rows that were set aside go. */
  letGo(rows: readonly { readonly file: string; readonly line: number }[]): ShiftOverview;
  /** The rows that were set aside, with their reasons, as CSV with commas. */
  setAsideText(): string;
  /** Names that readings brought and nothing knows, until somebody answers for them. */
  unknownNames(): readonly UnknownName[];
  answerName(answer: NameAnswer): BenchSummary;
  count(query: ReadingsQuery): ReadingsCount;
  window(query: ReadingsQuery, first: number, count: number): readonly ReadingRow[];
  /** Lines as the grid lists them: readings in the query's order, with the lines of their groups where it groups. */
  lines(query: ReadingsQuery, first: number, count: number, derived?: readonly DerivedField[]): readonly GridLine[];
  /** The line of a log row in a query's list, `-1` where it is filtered out or in a folded group. */
  placeOf(query: ReadingsQuery, row: number): number;
  facet(query: ReadingsQuery, field: ListedField): readonly FacetValue[];
  /** What the readings on the lines from `first` to `last` come to, both ends included. */
  summarise(query: ReadingsQuery, first: number, last: number): SelectionSummary;
  /** What `editReadings` would change. */
  tryEdit(query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): EditAnswer;
  /** Edits readings by hand, all cells or none, and judges them anew. @throws where they are more than can be edited at once */
  editReadings(query: ReadingsQuery, cells: readonly CellText[], mark: DecimalMark): EditAnswer;
  /** Gives the readings on some lines the values back with which they were brought in. */
  restoreReadings(query: ReadingsQuery, first: number, last: number): EditsSoFar;
  deleteReadings(query: ReadingsQuery, first: number, last: number): EditsSoFar;
  /** Brings all deleted readings back. */
  returnReadings(): EditsSoFar;
  /** Takes the last edit of readings back; nothing where there is none. */
  undoEdit(): EditsSoFar;
  redoEdit(): EditsSoFar;
  editsSoFar(): EditsSoFar;
  repairs(): readonly RepairLine[];
  /** @param mark - the decimal mark for numbers in its sentences */
  repair(id: string, mark?: DecimalMark): RepairStory | undefined;
  /** @param mark - the decimal mark for numbers in its sentences */
  decision(id: string, mark?: DecimalMark): RepairDecision | undefined;
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
  /** Adds a repair or replaces the one of its id. @throws where it cannot be kept, with a sentence */
  setRepair(repair: Repair): BenchSummary;
  bands(): BandsOverview;
  pastPoints(check: Check): PastPoints;
  /** Counts only: quick enough for every move of a limit. */
  tryBand(check: Check, expects: Expectation): Trial;
  propose(check: Check, settings: LearningSettings): ProposalLine;
  /** Proposals for every check of a family that has good readings; long, with progress. */
  proposeFamily(family: string, settings: LearningSettings): readonly ProposalLine[];
  /** Sets bands in place of those of the same family, point, mode and stage. @throws where one cannot be used, with a sentence */
  setBands(bands: readonly Band[]): Rejudged;
  removeBand(band: Band): Rejudged;
  /** Earlier bands of the same place, latest first. */
  bandHistory(band: Band): readonly Band[];
  /** All bands with their families, points and parts, as a CSV table that can be brought in again. */
  bandsText(): string;
  /** Adds a family or replaces the one of its name. @throws where it cannot be used, with a sentence */
  setFamily(family: Family): BenchSummary;
  meters(): readonly Meter[];
  /** Adds a meter or replaces the one of its name. @throws where it cannot be used, with a sentence */
  setMeter(meter: Meter): Rejudged;
  /** Takes the last change of bands, families, meters or repairs back; undefined where there is none. */
  undo(): Rejudged | undefined;
  families(): readonly FamilyLine[];
  family(name: string): FamilyPatterns | undefined;
  familyPage(query: FamilyQuery): FamilyPage | undefined;
  metersOverview(): MetersOverview;
  shift(): ShiftOverview;
  /**
   * Opens what is kept of the technician's own bench, and from then on keeps every change.
   * @param copy - the ledger as the page kept it apart, to find what the browser has lost
   */
  openKept(copy?: Ledger): KeptAnswer;
  /** Empties the bench and from then on keeps every change; what was kept before can be brought back once by `undoSwitch`. */
  startOwn(): BenchSummary;
  /** What is kept, small enough to keep a copy apart; undefined where nothing is kept. */
  ledger(): Ledger | undefined;
  /** Writes everything that is kept into one file. */
  backUp(): { readonly file: Blob; readonly seal: string };
  /** Reads a backup back; only then does it count as saved. @throws where it is damaged, with a sentence */
  confirmBackup(file: Blob, seal: string): Ledger | undefined;
  /** What a backup holds, checked whole; nothing is changed. @throws where it is refused, with the reason */
  lookIntoBackup(file: Blob): BackupContents;
  /** Puts a backup in place of what is kept, which `undoSwitch` brings back once. */
  restore(file: Blob): KeptAnswer;
  /** Goes back to what was kept before the last restore or clearing. */
  undoSwitch(): KeptAnswer;
  /** Empties the bench in memory alone, for the sample; what is kept stays, and nothing is kept until `openKept`. */
  clear(): BenchSummary;
}

export type CallName = keyof BenchCalls;

/** What a long call is given to report through and to be stopped by. */
export interface CallContext {
  readonly signal: AbortSignal;
  readonly report: (progress: ImportProgress) => void;
}

/** The worker's side of the contract: the same calls, each with its context last, at once or later. */
export type BenchHandlers = {
  readonly [Call in CallName]: (
    context: CallContext,
    ...args: Parameters<BenchCalls[Call]>
  ) => ReturnType<BenchCalls[Call]> | Promise<ReturnType<BenchCalls[Call]>>;
};

export type ToWorker =
  | { readonly id: number; readonly call: CallName; readonly args: readonly unknown[] }
  | { readonly id: number; readonly cancel: true };

export type FromWorker =
  | { readonly ready: true }
  /** Another tab changed what is kept, and the bench is as that has it now. */
  | { readonly changed: true }
  | { readonly id: number; readonly result: unknown }
  | { readonly id: number; readonly error: string; readonly cancelled: boolean }
  | { readonly id: number; readonly progress: ImportProgress };

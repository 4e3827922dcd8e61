import type { Band, Expectation, Limits } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { Family } from '../../domain/family.ts';
import type { GoodRule } from '../../domain/good-rule.ts';
import type { SetAside } from '../../domain/import-record.ts';
import type { Meter } from '../../domain/meter.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Verdict } from '../../domain/verdict.ts';
import type { Trial, TrialShare } from '../../learning/trial.ts';
import type { BenchSummary } from './memory.ts';

export type { Trial, TrialShare };

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

/** What a band is learned with: which boards are known good, the share of them it shall hold, how surely, on which sides, and which screened rows stay in. */
export interface LearningSettings {
  readonly content: number;
  readonly confidence: number;
  readonly sides: 'both' | 'at least' | 'at most';
  readonly keptRows: readonly number[];
  readonly rule: GoodRule;
  /** That of the sentences about it. */
  readonly mark: DecimalMark;
}

/** A proposed band with what backs it. */
export interface Proposal {
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
  /** Meters whose readings were put right before, with how much they read too high in percent. */
  readonly putRight: readonly { readonly meter: string; readonly percent: number; readonly readings: number }[];
  /** Two meters that differ by so many percent where nobody knows which is off, so that neither was put right. */
  readonly differ?: { readonly meters: readonly [string, string]; readonly percent: number };
  /** What to be careful about, each a sentence. */
  readonly warnings: readonly string[];
  /** `Infinity` where no number of boards will do. */
  readonly boardsWanted: number;
  readonly trial: Trial;
}

/** What there is to propose for one check. */
export interface ProposalLine {
  readonly check: Check;
  /** Good readings there are, one a board, over-range ones included. */
  readonly readings: number;
  /** Why no band can be proposed, as a sentence; else `proposal` is there. */
  readonly reason?: string;
  readonly proposal?: Proposal;
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

/** What a typed table of meters holds, and its rows that cannot be read. */
export interface MetersRead {
  readonly meters: readonly Meter[];
  readonly faults: readonly SetAside[];
}

/** Bands, and what judges with them. */
export interface BandCalls {
  bands(): BandsOverview;
  pastPoints(check: Check, rule: GoodRule): PastPoints;
  /** Counts only: quick enough for every move of a limit. */
  tryBand(check: Check, expects: Expectation, rule: GoodRule): Trial;
  propose(check: Check, settings: LearningSettings): ProposalLine;
  /** Proposals for every check of a family that has good readings, with progress check by check. */
  proposeFamily(family: string, settings: LearningSettings): readonly ProposalLine[];
  /**
   * Sets bands in place of those of the same family, point, mode and stage.
   * @param why - stands with the change in its history, as where a band lets boards through that are known to be bad
   * @throws where one cannot be used, with a sentence
   */
  setBands(bands: readonly Band[], why?: string): Rejudged;
  removeBand(band: Band): Rejudged;
  /** Earlier bands of the same place, latest first. */
  bandHistory(band: Band): readonly Band[];
  /** All bands with their families, points and parts, as a CSV table that can be brought in again. */
  bandsText(): string;
  /** Adds a family or replaces the one of its name. @throws where it cannot be used, with a sentence */
  setFamily(family: Family): BenchSummary;
  meters(): readonly Meter[];
  /** Reads a table of meters that was typed or pasted, and changes nothing. @throws where it is no such table, with a sentence */
  readMeters(text: string): MetersRead;
  /** Adds meters or replaces those of their names. @throws where one cannot be used, with a sentence */
  setMeters(meters: readonly Meter[]): Rejudged;
  /** Takes the last change of bands, families, meters or repairs back; undefined where there is none. */
  undo(): Rejudged | undefined;
}

import type { Band, Expectation, Limits } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { Family } from '../../domain/family.ts';
import type { Meter } from '../../domain/meter.ts';
import type { Verdict } from '../../domain/verdict.ts';
import type { Trial } from '../../learning/trial.ts';
import type { BenchSummary } from './memory.ts';

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

/** Bands, and what judges with them. */
export interface BandCalls {
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
}

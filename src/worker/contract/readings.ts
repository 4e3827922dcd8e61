import type { DerivedField } from '../../columns/derived.ts';
import type { GroupField } from '../../columns/groups.ts';
import type { ListedField, ReadingsQuery } from '../../columns/query.ts';
import type { Band, Limits } from '../../domain/band.ts';
import type { Shown, Unit } from '../../domain/quantity.ts';
import type { ReadingPatch, RowIdentity } from '../../domain/reading-edit.ts';
import type { Reading } from '../../domain/reading.ts';
import type { PartWord } from '../../domain/verdict.ts';

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
  /** Which of the readings of its line it is, from 0; told in the lines of the grid. */
  readonly nth?: number;
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

/** What the page may ask about readings. */
export interface ReadingCalls {
  count(query: ReadingsQuery): ReadingsCount;
  window(query: ReadingsQuery, first: number, count: number): readonly ReadingRow[];
  /** Lines as the grid lists them: readings in the query's order, with the lines of their groups where it groups. */
  lines(query: ReadingsQuery, first: number, count: number, derived?: readonly DerivedField[]): readonly GridLine[];
  /** The line of a reading in a query's list, `-1` where it is gone, filtered out or in a folded group. */
  placeOf(query: ReadingsQuery, reading: RowIdentity): number;
  facet(query: ReadingsQuery, field: ListedField): readonly FacetValue[];
  /** What the readings on the lines from `first` to `last` come to, both ends included. */
  summarise(query: ReadingsQuery, first: number, last: number): SelectionSummary;
  /**
   * All readings of a query in its order, groups apart, as a CSV file that gives the same readings where it is brought in.
   * @param isForSpreadsheet - with an apostrophe before what a spreadsheet program would take for a formula; else exactly as they are
   */
  readingsText(query: ReadingsQuery, isForSpreadsheet?: boolean): Blob;
}

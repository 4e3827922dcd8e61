import type { Mode } from './reading.ts';

/** A meter's accuracy in one mode and range: ±(percent of reading + counts of the last digit). */
export interface Accuracy {
  readonly mode: Mode;
  /** The range limit: the largest magnitude of the range, in the mode's SI unit; above it the meter shows over-range. */
  readonly upTo: number;
  readonly percent: number;
  readonly counts: number;
  /** Size of the last digit on this range, in the SI unit, where it is known; tells ranges apart. */
  readonly resolution?: number;
}

/** A meter of the bench. One without accuracies is used, and said to be of unknown accuracy. */
export interface Meter {
  readonly name: string;
  readonly accuracies: readonly Accuracy[];
  /** What the meter shows, and its log holds, where a reading lies above the range; where it is none of the usual marks. */
  readonly overRangeMark?: string;
  /** Day on which its calibration falls due, at its start, in milliseconds of local wall time. */
  readonly calibrationDue?: number;
}

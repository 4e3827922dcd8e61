import type { Mode } from './reading.ts';

/** A meter's accuracy in one mode and range: ±(percent of reading + counts of the last digit). */
export interface Accuracy {
  readonly mode: Mode;
  /** Largest magnitude of the range, in the mode's SI unit; the accuracy holds up to it. */
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
}

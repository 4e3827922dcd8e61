/** How a repair ended. */
export const OUTCOMES = ['open', 'returned working', 'not worth repairing', 'no fault found', 'comeback'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** One board on the bench once. Days are local wall time in milliseconds counted as if UTC, `NaN` where unknown. */
export interface Repair {
  readonly id: string;
  readonly family: string;
  readonly complaint: string;
  readonly received: number;
  readonly returned: number;
  readonly outcome: Outcome;
  /** Designators of the parts that were replaced, whether or not they had failed. */
  readonly replaced: readonly string[];
  /** The earlier repair of the same board, where it came back. */
  readonly comebackOf?: string;
  /** The workplace at which it was repaired, where the shop has several. */
  readonly bench?: string;
}

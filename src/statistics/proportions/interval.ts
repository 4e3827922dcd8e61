/** A confidence interval for a share, within 0 to 1. */
export interface ShareInterval {
  readonly lower: number;
  readonly upper: number;
}

/** Centre and limits of a control chart whose limits are the same for every point. */
export interface ControlLimits {
  readonly centre: number;
  readonly lower: number;
  readonly upper: number;
}

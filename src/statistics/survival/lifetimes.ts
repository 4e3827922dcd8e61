/**
 * Times under observation, and for each whether the event came then (true) or the watch ended without it (false,
 * censored).
 */
export interface Lifetimes {
  readonly times: ArrayLike<number>;
  readonly events: ArrayLike<boolean>;
}

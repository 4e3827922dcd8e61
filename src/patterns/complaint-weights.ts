/** What the repairs under other complaints weigh together, in repairs: so that chances come true as often as they say (measured on the simulated bench). */
const OTHERS_WEIGH = 1;

/**
 * What each repair under another complaint tells of a board under a complaint, where one under the same tells as much as 1: all others together tell
 * as much as one repair.
 * @param others - how many there are
 */
export function weightOfOthers(others: number): number {
  return Math.min(1, OTHERS_WEIGH / Math.max(1, others));
}

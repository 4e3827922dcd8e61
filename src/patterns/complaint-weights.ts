/** What the repairs under other complaints weigh together, in repairs: so that chances come true as often as they say (measured on the simulated bench). */
const OTHERS_WEIGH = 1;

/**
 * What each of some repairs tells of a board under a complaint: those under the same one count whole, all others together as much as one.
 * Without a complaint all count whole.
 * @param complaints - of the repairs
 */
export function complaintWeights(
  complaints: readonly (string | undefined)[],
  complaint: string | undefined,
): { readonly weights: readonly number[]; readonly under: number } {
  if (complaint === undefined) return { weights: complaints.map(() => 1), under: complaints.length };
  const under = complaints.filter((other) => other === complaint).length;
  const others = Math.min(1, OTHERS_WEIGH / Math.max(1, complaints.length - under));
  return { weights: complaints.map((other) => (other === complaint ? 1 : others)), under };
}

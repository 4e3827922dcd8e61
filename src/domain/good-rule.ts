/** Which readings count as known good: those of boards that were returned working and did not come back, and what is taken beside them. */
export interface GoodRule {
  /** For how many days a board must have stayed away, at the least; one that came back never counts. */
  readonly heldDays: number;
  /** Whether boards without a fault found count as well. */
  readonly withoutFault: boolean;
  /** Whether new parts, measured beside the board's own, count as well. */
  readonly newParts: boolean;
}

/** Boards count as soon as they are returned, those without a fault too, and so do new parts. */
export const RETURNED_AND_HELD: GoodRule = { heldDays: 0, withoutFault: true, newParts: true };

/** Why a rule cannot be used, as a sentence; undefined where it can. */
export function goodRuleFault({ heldDays }: GoodRule): string | undefined {
  if (Number.isSafeInteger(heldDays) && heldDays >= 0) return undefined;
  return 'For how many days a known-good board has stayed away must be a whole number of at least 0.';
}

import type { GoodRule } from '../../domain/good-rule.ts';

/** For how long a board stayed away, as the rule of known-good boards asks. */
export function heldText(days: number): string {
  return days === 0 ? 'so far' : `for ${days} days or more`;
}

/** The rule of known-good boards in words. */
export function goodRuleText({ heldDays, withoutFault, newParts }: GoodRule): string {
  const boards = `returned working, and has not come back ${heldText(heldDays)}`;
  return [boards, ...(withoutFault ? ['also boards without a fault found'] : []), ...(newParts ? ['also new parts measured beside'] : [])].join('; '); // prettier-ignore
}

import { RETURNED_AND_HELD, type GoodRule } from '../../domain/good-rule.ts';
import type { LearningSettings } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';

/** What a band is learned with until somebody says otherwise, but for the rule of known-good boards. */
export const DEFAULT_LEARNING: Omit<LearningSettings, 'rule'> = {
  content: 0.95,
  confidence: 0.95,
  sides: 'both',
  keptRows: [],
};

export const SHARES = [0.9, 0.95, 0.99] as const;

export const SIDES_WORDS: Readonly<Record<LearningSettings['sides'], string>> = {
  both: 'both sides',
  'at least': 'low side only',
  'at most': 'high side only',
};

const rules = new WeakMap<Session, GoodRule>();

/** The rule of known-good boards, as last chosen while this page is open. */
export function ruleOf(session: Session): GoodRule {
  return rules.get(session) ?? RETURNED_AND_HELD;
}

export function rememberRule(session: Session, rule: GoodRule): void {
  rules.set(session, rule);
}

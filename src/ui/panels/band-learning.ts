import { RETURNED_AND_HELD, type GoodRule } from '../../domain/good-rule.ts';
import type { LearningSettings } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';

/** What a band is learned with until somebody says otherwise, but for the rule of known-good boards and the decimal mark. */
export const DEFAULT_LEARNING: Omit<LearningSettings, 'rule' | 'mark'> = {
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

/** The rule of known-good boards that the bench's settings state, else the usual one. */
export async function ruleOf(session: Session, signal?: AbortSignal): Promise<GoodRule> {
  return (await session.ask('settings', [], signal)).goodRule ?? RETURNED_AND_HELD;
}

/** Keeps a rule with the bench's settings, upon which all that was asked by the one before is asked again. */
export async function keepRule(session: Session, goodRule: GoodRule): Promise<void> {
  await session.ask('changeSettings', [{ goodRule }]);
}

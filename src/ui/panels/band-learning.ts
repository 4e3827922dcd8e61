import type { LearningSettings } from './band-answers.ts';

/** What a band is learned with until somebody says otherwise. */
export const DEFAULT_LEARNING: LearningSettings = { content: 0.95, confidence: 0.95, sides: 'both', keptRows: [] };

export const SHARES = [0.9, 0.95, 0.99] as const;

export const SIDES_WORDS: Readonly<Record<LearningSettings['sides'], string>> = {
  both: 'both sides',
  'at least': 'low side only',
  'at most': 'high side only',
};

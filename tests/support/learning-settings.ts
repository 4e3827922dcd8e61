import { RETURNED_AND_HELD } from '../../src/domain/good-rule.ts';

/** How a band is learned where a test does not care: 95/95 on both sides, from boards that went back and held. */
export const LEARNING = {
  content: 0.95,
  confidence: 0.95,
  sides: 'both',
  keptRows: [],
  rule: RETURNED_AND_HELD,
  mark: '.',
} as const;

import type { Question } from '../../domain/file-plan.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { MARK_NAMES, ORDER_NAMES } from './file-plan-text.ts';

/** Questions in the order in which they decide: how text is spelled, what columns hold, how their cells are meant. */
const WEIGHT: readonly Question['about'][] = ['encoding', 'columns', 'decimal mark', 'date order', 'given'];

export function byWeight(first: Question, second: Question): number {
  return WEIGHT.indexOf(first.about) - WEIGHT.indexOf(second.about);
}

/** The answer to a question as it stands, in few words. */
export function answerTo({ about }: Question, { plan, answered }: Pick<WaitingFile, 'plan' | 'answered'>): string {
  if (!answered.includes(about)) return 'Not answered yet.';
  if (about === 'decimal mark') return `Decimal ${MARK_NAMES[plan.decimalMark]}.`;
  if (about === 'date order') return `In the order ${ORDER_NAMES[plan.dateOrder]}.`;
  return 'As chosen.';
}

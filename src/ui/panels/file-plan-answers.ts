import type { Question } from '../../domain/file-plan.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { ENCODING_NAMES, MARK_NAMES, ORDER_NAMES } from './file-plan-text.ts';

/** Questions in the order in which they decide: how text is spelled, what columns hold, how their cells are meant. */
const WEIGHT: readonly Question['about'][] = ['encoding', 'columns', 'decimal mark', 'date order', 'given'];

export function byWeight(first: Question, second: Question): number {
  return WEIGHT.indexOf(first.about) - WEIGHT.indexOf(second.about);
}

const NAMES: Readonly<Record<Question['about'], string>> = {
  encoding: 'Encoding',
  columns: 'Columns',
  'decimal mark': 'Decimal mark',
  'date order': 'Dates',
  given: 'For all rows',
};

/** What a question is about and its answer as it stands, in few words. */
export function answerTo({ about }: Question, { plan, answered }: Pick<WaitingFile, 'plan' | 'answered'>): string {
  return `${NAMES[about]}: ${answered.includes(about) ? answerText(about, plan) : 'not answered yet'}`;
}

function answerText(about: Question['about'], plan: WaitingFile['plan']): string {
  if (about === 'decimal mark') return MARK_NAMES[plan.decimalMark];
  if (about === 'date order') return ORDER_NAMES[plan.dateOrder];
  return about === 'encoding' ? ENCODING_NAMES[plan.encoding] : 'as chosen';
}

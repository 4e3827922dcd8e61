import type { BenchCalls } from '../../session/answers.ts';
import type { Answer } from '../controllers/answer-controller.ts';

/** What the worker answers about bands, by the calls that give it. */
export type PastPoints = ReturnType<BenchCalls['pastPoints']>;
export type Trial = ReturnType<BenchCalls['tryBand']>;
export type TrialShare = Trial['goodStopped'];
export type ProposalLine = ReturnType<BenchCalls['propose']>;
export type Proposal = NonNullable<ProposalLine['proposal']>;
export type LearningSettings = Parameters<BenchCalls['propose']>[1];
export type Rejudged = ReturnType<BenchCalls['setBands']>;

/** The value of an answer that is there, or the one before that stands until it is. */
export function valueOf<Value>(answer: Answer<Value>): Value | undefined {
  return answer.status === 'failed' ? undefined : answer.value;
}

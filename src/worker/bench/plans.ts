import type { FilePlan } from '../../domain/file-plan.ts';
import { headerSignature, planFile, type Refusal } from '../../intake/plan-file.ts';
import type { PlanChoices } from '../contract/intake.ts';
import type { BenchData } from './bench-data.ts';

/** As much of a file as its shape is guessed from, in bytes. */
export const HEAD_BYTES = 256 * 1024;

/** How a file is read: guessed from its head, and by what was settled for its header before. */
export function planWith(
  data: BenchData,
  name: string,
  head: Uint8Array,
  atEnd: boolean,
  choices: PlanChoices = {},
): FilePlan | Refusal {
  const guessed = planFile(name, head, atEnd, (signature) => data.maps.get(signature)?.columns, choices);
  if ('refused' in guessed) return guessed;
  const marks = data.meters.flatMap(({ overRangeMark }) => overRangeMark ?? []);
  const plan = marks.length === 0 || guessed.shape !== 'readings' ? guessed : { ...guessed, overRangeMarks: marks };
  const settled = data.maps.get(headerSignature(plan.columns));
  if (settled === undefined) return plan;
  const asks = (about: string): boolean => plan.questions.some((question) => question.about === about);
  return {
    ...plan,
    decimalMark: asks('decimal mark') ? settled.decimalMark : plan.decimalMark,
    dateOrder: asks('date order') ? settled.dateOrder : plan.dateOrder,
    questions: plan.questions.filter((question) => question.about === 'given'),
  };
}

/** Whether a plan's columns are those that the technician settled for its header. */
export function isSettled(data: BenchData, plan: FilePlan): boolean {
  return data.maps.has(headerSignature(plan.columns));
}

/** The bench that reads the next file with the same header as this plan does. */
export function remember(data: BenchData, plan: FilePlan): BenchData {
  const map: FilePlan = { ...plan, given: {}, givenRanges: [], questions: [] };
  return { ...data, maps: new Map([...data.maps, [headerSignature(plan.columns), map]]) };
}

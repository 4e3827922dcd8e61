import type { Field, FilePlan, Given, Question } from '../domain/file-plan.ts';
import type { WaitingFile } from './waiting-file.ts';

/** Something that can be stated for a whole file, and whether its rows cannot be read without it. */
export interface GivenField {
  readonly key: keyof Given;
  readonly required: boolean;
}

/** Why a file cannot be read yet: which question is open, and what to do, as a sentence. */
export interface PlanFault {
  readonly about: Question['about'];
  readonly text: string;
}

const MISSING: Readonly<Record<keyof Given, string>> = {
  repair: 'State which repair these readings belong to: no column says it.',
  family: 'State the board family: no column says it.',
  point: 'State which test point was probed: no column says it.',
  stage: 'State at which stage this was measured: no column says it.',
  mode: 'State the mode: neither a column nor a unit says it.',
  specimen: 'State whose part was measured: no column says it.',
  meter: 'State the meter: no column says it.',
  start: 'State the day, or the start of the elapsed time: without it no reading has a time.',
};

/** What no column of a file of readings says, so that it is stated for all of its rows. */
export function givenFields({ shape, columns }: FilePlan): readonly GivenField[] {
  if (shape !== 'readings') return [];
  const readings = columns.filter((use) => use.field === 'reading');
  const has = (...fields: readonly Field[]): boolean => columns.some((use) => fields.includes(use.field));
  const everyReading = (key: 'point' | 'stage' | 'mode'): boolean =>
    readings.length > 0 && readings.every((use) => use[key] !== undefined);
  const needsStart = has('elapsed', 'clock') && !has('time', 'date');
  const fields: readonly (GivenField & { readonly isTold: boolean })[] = [
    { key: 'repair', required: true, isTold: has('repair') },
    { key: 'family', required: false, isTold: has('family') },
    { key: 'point', required: true, isTold: has('point') || everyReading('point') },
    { key: 'stage', required: true, isTold: has('stage') || everyReading('stage') },
    { key: 'mode', required: false, isTold: has('mode') || everyReading('mode') },
    { key: 'specimen', required: false, isTold: has('specimen') },
    { key: 'meter', required: false, isTold: has('meter') },
    { key: 'start', required: needsStart, isTold: has('time', 'date') },
  ];
  return fields.filter(({ isTold }) => !isTold).map(({ key, required }) => ({ key, required }));
}

/** What is still open before a file can be read as its plan says; undefined where nothing is. */
export function planFault({ plan, answered }: Pick<WaitingFile, 'plan' | 'answered'>): PlanFault | undefined {
  const has = (field: Field): boolean => plan.columns.some((use) => use.field === field);
  for (const about of ['decimal mark', 'date order'] as const) {
    if (plan.questions.some((question) => question.about === about) && !answered.includes(about)) {
      const text = about === 'decimal mark' ? 'how its numbers are meant' : 'how its dates are meant';
      return { about, text: `Say ${text}: choose one of the two answers.` };
    }
  }
  if (plan.shape === 'unknown') {
    return { about: 'columns', text: 'Say what the file holds, or choose what one of its columns is read as.' };
  }
  if (plan.shape === 'readings' && !has('reading')) {
    return { about: 'columns', text: 'Choose the column that holds what the meter showed: none is read as a reading.' };
  }
  if (plan.shape === 'repairs' && !has('repair')) {
    return { about: 'columns', text: 'Choose the column that holds the repairs: none is read as a repair.' };
  }
  const isStated = (key: keyof Given): boolean =>
    plan.given[key] !== undefined || (plan.givenRanges ?? []).some(({ given }) => given[key] !== undefined);
  const missing = givenFields(plan).find(({ key, required }) => required && !isStated(key));
  return missing && { about: 'given', text: MISSING[missing.key] };
}

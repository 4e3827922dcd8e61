import type { DateOrder, FilePlan, Question } from '../domain/file-plan.ts';
import type { DecimalMark } from '../domain/quantity.ts';
import { readHeader } from './header-text.ts';
import type { Decision } from './guess-marks.ts';

type Plan = Omit<FilePlan, 'questions'>;

/**
 * What a file alone cannot settle.
 * @param known - whether the columns are those chosen earlier, and so need no question
 * @param odd - a word that the encoding hardly spells
 */
export function questionsOf(
  plan: Plan,
  mark: Decision<DecimalMark>,
  order: Decision<DateOrder>,
  known: boolean,
  odd: string | undefined,
): Question[] {
  const questions: Question[] = [];
  if (mark.example !== undefined) {
    const text = `Is “${mark.example}” a number with decimals, or one with a mark between thousands? The file does not show which.`;
    questions.push({ about: 'decimal mark', text });
  }
  if (mark.mixed) {
    const text =
      'Some numbers have a decimal comma and some a decimal point. Which of the two does this file use? The others are set aside.';
    questions.push({ about: 'decimal mark', text });
  }
  if (order.example !== undefined) {
    const text = `Does “${order.example}” start with the day or with the month? The file does not show which.`;
    questions.push({ about: 'date order', text });
  }
  if (order.mixed) {
    const text =
      'Some dates can only start with the day and some only with the month. Which comes first? The others are set aside.';
    questions.push({ about: 'date order', text });
  }
  if (plan.shape === 'unknown') {
    const text = 'No column looks like readings, repairs, bands or meters. Which column holds what?';
    questions.push({ about: 'columns', text });
  } else if (!known && plan.columns.some((use) => use.doubtful)) {
    const columns = plan.columns.flatMap((use, at) => (use.doubtful ? [at] : []));
    const names = columns.map((at) => `“${plan.columns[at]!.header}”`);
    const text = `Are these columns read as what they are: ${names.slice(0, 5).join(', ')}?`;
    questions.push({ about: 'columns', text, columns });
  }
  if (odd !== undefined && !known) {
    const text = `Is “${odd}” spelled as it should be? If not, choose another encoding for the file.`;
    questions.push({ about: 'encoding', text });
  }
  const missing = missingOf(plan);
  if (missing.length > 0) {
    const text = `The file does not say: ${missing.join(', ')}. State it for all its rows.`;
    questions.push({ about: 'given', text });
  }
  return questions;
}

/** What a file of its shape must say, and neither a column nor the technician does. */
function missingOf(plan: Plan): string[] {
  const lacks = (field: 'family' | 'meter'): boolean =>
    plan.given[field] === undefined && plan.columns.every((use) => use.field !== field);
  switch (plan.shape) {
    case 'readings':
      return missingOfReadings(plan);
    case 'bands':
      return lacks('family') ? ['which board family'] : [];
    case 'meters':
      return lacks('meter') ? ['which meter'] : [];
    case 'repairs':
    case 'unknown':
      return [];
  }
}

function missingOfReadings(plan: Plan): string[] {
  const has = (field: string): boolean => plan.columns.some((use) => use.field === field);
  const readings = plan.columns.filter((use) => use.field === 'reading');
  const { given } = plan;
  return [
    ...(has('repair') || given.repair !== undefined ? [] : ['which repair']),
    ...(has('point') || given.point !== undefined || readings.every((use) => use.point !== undefined)
      ? []
      : ['which test point']),
    ...(has('stage') || given.stage !== undefined || readings.every((use) => use.stage !== undefined)
      ? []
      : ['which stage']),
    ...(has('mode') ||
    has('unit') ||
    given.mode !== undefined ||
    readings.every((use) => use.mode ?? readHeader(use.header).unit?.unit)
      ? []
      : ['which mode']),
    ...(has('elapsed') && given.start === undefined ? ['from when the elapsed time counts'] : []),
    ...(has('clock') && !has('date') && !has('time') && given.start === undefined ? ['on which day'] : []),
  ];
}

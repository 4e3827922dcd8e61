import type { FilePlan, Question } from '../../../src/domain/file-plan.ts';
import { HEAD_BYTES } from '../../../src/intake/caps.ts';
import type { FileContents } from '../../../src/intake/file-contents.ts';
import { planFile, type Choices } from '../../../src/intake/plan-file.ts';
import { planFault } from '../../../src/session/plan-check.ts';
import { read, readingsOf, utf8 } from '../support.ts';
import { givenReadings, givenRepairs, statedReadings, statedRepairs, without, type Outcome } from './expected.ts';
import { textOf, type Answers, type LogCase } from './log-case.ts';

/** Brings a log in as the page does: it is planned, what is asked is answered, and then it is read. What cannot be read says so. */
export function bringIn(log: LogCase): Promise<Outcome> {
  return tried(log).catch((error: unknown) => notReadable(log, [], String(error)));
}

async function tried(log: LogCase): Promise<Outcome> {
  const bytes = log.bytes ?? utf8(textOf(log));
  const first = planOf(bytes);
  const asked: Question['about'][] = first.questions.map(({ about }) => about);
  const { encoding, separator } = log.answers ?? {};
  const isReplanned = (asked.includes('encoding') && encoding !== undefined) || separator !== undefined;
  const plan = answered(
    isReplanned ? planOf(bytes, { ...(encoding && { encoding }), ...(separator && { separator }) } as Choices) : first,
    log.answers ?? {},
  );
  const open = planFault({ plan, answered: plan.questions.map(({ about }) => about) });
  if (open !== undefined) return notReadable(log, asked, open.text);
  return outcomeOf(log, asked, await read(bytes, plan, undefined, `${log.name}.csv`));
}

function planOf(bytes: Uint8Array, choices: Choices = {}): FilePlan {
  const plan = planFile('log.csv', bytes.subarray(0, HEAD_BYTES), bytes.length <= HEAD_BYTES, undefined, choices);
  if ('refused' in plan) throw new Error(plan.refused);
  return plan;
}

/** The plan with each question answered that it asks; what it does not ask stays as it was guessed. */
function answered(plan: FilePlan, { given = {}, dateOrder, decimalMark, columns = {} }: Answers): FilePlan {
  const asks = (about: Question['about']): boolean => plan.questions.some((question) => question.about === about);
  const has = (field: string): boolean => plan.columns.some((use) => use.field === field);
  const stated = Object.entries(given).filter(([key]) => key === 'start' || !has(key));
  return {
    ...plan,
    ...(asks('date order') && dateOrder !== undefined ? { dateOrder } : {}),
    ...(asks('decimal mark') && decimalMark !== undefined ? { decimalMark } : {}),
    ...(asks('given') ? { given: Object.fromEntries(stated) } : {}),
    columns: plan.columns.map((use, at) => ({
      ...use,
      ...(asks('columns') ? columns[use.header === '' ? String(at + 1) : use.header] : {}),
    })),
  };
}

function expectedOf({ reads, repairs }: LogCase): string[] {
  if (repairs !== undefined) return statedRepairs(repairs);
  return reads === undefined ? [] : statedReadings(reads);
}

function unasked({ asks = [], answers }: LogCase, asked: readonly Question['about'][]): string[] {
  const needed = answers?.given === undefined ? asks : [...asks, 'given' as const];
  return needed.filter((about) => !asked.includes(about)).map((about) => `not asked: ${about}`);
}

function notReadable(log: LogCase, asked: readonly Question['about'][], why: string): Outcome {
  const expected = expectedOf(log).length;
  const faults = [...unasked(log, asked), ...(expected > 0 ? [`still open after the answers: ${why}`] : [])];
  return { expected, right: 0, setAside: expected, wrong: 0, questions: asked.length, faults };
}

function gotOf(contents: FileContents): string[] {
  if (contents.shape === 'repairs') return givenRepairs(contents.repairs);
  return contents.shape === 'readings' ? givenReadings(readingsOf(contents)) : [`a table of ${contents.shape}`];
}

function outcomeOf(log: LogCase, asked: readonly Question['about'][], contents: FileContents): Outcome {
  const expected = expectedOf(log);
  const got = gotOf(contents);
  const missing = without(expected, got);
  const extra = without(got, expected);
  const aside = new Map(contents.setAside.map(({ line, reason }) => [line, reason]));
  const due = log.aside ?? {};
  const good = [...aside].filter(([line]) => !(line in due));
  const notAside = Object.entries(due).filter(([line, word]) => !word.test(aside.get(Number(line)) ?? ''));
  const setAside = Math.min(missing.length, good.length);
  const notices = contents.notices.join(' ');
  return {
    expected: expected.length,
    right: expected.length - missing.length,
    setAside,
    wrong: Math.max(extra.length, missing.length - setAside),
    questions: asked.length,
    faults: [
      ...unasked(log, asked),
      ...missing.map((entry) => `missing: ${entry}`),
      ...extra.map((entry) => `never written: ${entry}`),
      ...good.map(([line, reason]) => `line ${line} is good, yet set aside: ${reason}`),
      ...notAside.map(([line, word]) => `line ${line} must be set aside with ${word}: ${aside.get(Number(line)) ?? 'it was taken'}`), // prettier-ignore
      ...(log.says !== undefined && !log.says.test(notices) ? [`no notice says ${log.says}: ${notices}`] : []),
    ],
  };
}

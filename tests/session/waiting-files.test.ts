import { describe, expect, test } from 'vitest';
import type { FilePlan, Preview } from '../../src/domain/file-plan.ts';
import type { ImportRecord } from '../../src/domain/import-record.ts';
import type { BenchSummary, ImportOutcome } from '../../src/session/answers.ts';
import { hashOfFile } from '../../src/session/originals.ts';
import { Session } from '../../src/session/session.ts';
import { CallCancelled } from '../../src/worker/client.ts';
import { fakeClient, type FakeAnswers } from './fake-client.ts';
import { DECIMAL, GIVEN, planOf, previewOf } from './plan-of.ts';

const summary: BenchSummary = { readings: 1, repairs: 1, families: 1, bands: 0 };
const asking = planOf({ questions: [DECIMAL] });
const odd = new File(['odd'], 'odd.csv');
const twin = new File(['twin'], 'twin.csv');
const clean = new File(['clean'], 'clean.csv');

function recordOf(file: string, hash = file): ImportRecord {
  const counts = { rows: 1, taken: 1, setAside: 0, known: 0, noData: 1 };
  return { file, hash, shape: 'readings', encoding: 'utf-8', separator: ';', ...counts, notices: [] };
}

const read = (files: readonly File[]): ImportOutcome => ({
  records: files.map(({ name }) => recordOf(name)),
  setAside: [],
  refused: [],
});

/** A bench on which `clean.csv` leaves no question open, and the others do until one of them is settled. */
function open(answers: FakeAnswers = {}) {
  let isSettled = false;
  const client = fakeClient({
    summary: () => summary,
    clear: () => summary,
    shift: () => ({ imports: [], setAside: [] }),
    planFile: ([file]) => (file === clean || isSettled ? planOf() : asking),
    previewFile: ([, plan]) => previewOf(plan),
    takeBack: () => summary,
    bringIn: ([files, plans]) => {
      isSettled ||= plans !== undefined;
      return read(files);
    },
    ...answers,
  });
  const session = new Session(client, () => Promise.resolve([]));
  const brought = () => client.calls.filter(({ name }) => name === 'bringIn').map(({ args }) => args);
  return { client, session, brought };
}

describe('bringIn(files)', () => {
  test('reads what leaves no question open, and has the others wait with their first rows', async () => {
    const { session, brought } = open();
    await session.bringIn([odd, clean, twin]);
    expect(brought()).toEqual([[[clean]]]);
    expect(session.state.waiting.map(({ name }) => name)).toEqual(['odd.csv', 'twin.csv']);
    expect(session.state.waiting[0]).toMatchObject({ file: odd, plan: asking, answered: [] });
    expect(session.state.waiting[0]?.preview?.rows).toHaveLength(2);
    expect(session.state.waiting[0]?.lines[0]).toEqual({
      line: 2,
      cells: ['2026-03-14 09:00', 'T-0131', 'bulk', 'live', 'DC volts', '123,000'],
    });
    expect(session.state.outcome?.records.map(({ file }) => file)).toEqual(['clean.csv']);
  });

  test('tells of a file that cannot be planned without reading anything', async () => {
    const { session, brought } = open({ planFile: () => ({ refused: '“odd.csv” is a PNG picture.' }) });
    await session.bringIn([odd]);
    expect(brought()).toEqual([]);
    expect(session.state.outcome?.refused).toEqual([{ file: 'odd.csv', reason: '“odd.csv” is a PNG picture.' }]);
    expect(session.state.waiting).toEqual([]);
  });

  test('asks nothing about bytes that are on the bench already', async () => {
    const imports = [recordOf('earlier.csv', await hashOfFile(odd))];
    const { session, brought } = open({ shift: () => ({ imports, setAside: [] }) });
    await session.bringIn([odd]);
    expect(session.state.waiting).toEqual([]);
    expect(brought()).toEqual([[[odd]]]);
  });
});

describe('settlePlan(file, plan)', () => {
  test('reads the file so, and its twin without another question', async () => {
    const { session, brought } = open();
    await session.bringIn([odd, twin]);
    const plan = planOf({ decimalMark: '.' });
    await session.settlePlan(odd, plan);
    expect(brought()).toEqual([[[odd], [plan]], [[twin]]]);
    expect(session.state.waiting).toEqual([]);
    expect(session.state.outcome?.records.map(({ file }) => file)).toEqual(['odd.csv', 'twin.csv']);
  });

  test('keeps what was settled where the import is cancelled', async () => {
    const { session } = open({ bringIn: () => Promise.reject(new CallCancelled('Stopped.')) });
    await session.bringIn([odd]);
    const plan = planOf({ decimalMark: '.' });
    await session.settlePlan(odd, plan);
    expect(session.state.problem).toBe('The import was cancelled: its files were left out.');
    expect(session.state.waiting).toMatchObject([{ file: odd, plan }]);
  });

  test('offers what was stated for the file to the next one of its header, but for board and day', async () => {
    const given = planOf({ questions: [GIVEN] });
    const { session } = open({ planFile: () => given });
    await session.bringIn([odd, twin]);
    await session.settlePlan(odd, { ...given, given: { repair: 'T-0131', stage: 'live', meter: 'M1', start: 0 } });
    expect(session.state.waiting).toMatchObject([{ file: twin, plan: { given: { stage: 'live', meter: 'M1' } } }]);
    expect(session.state.waiting[0]?.plan.given.repair).toBeUndefined();
  });
});

describe('changePlan(file, plan)', () => {
  test('tries the plan and notes the question that it answers', async () => {
    const { session } = open();
    await session.bringIn([odd]);
    const plan = { ...asking, decimalMark: '.' } as const;
    await session.changePlan(odd, () => plan, 'decimal mark');
    expect(session.state.waiting[0]).toMatchObject({ plan, answered: ['decimal mark'], preview: { plan } });
  });

  test('loses neither of two changes made at once', async () => {
    const { session } = open();
    await session.bringIn([odd]);
    await Promise.all([
      session.changePlan(odd, (plan) => ({ ...plan, given: { ...plan.given, repair: 'T-1' } })),
      session.changePlan(odd, (plan) => ({ ...plan, given: { ...plan.given, stage: 'live' } })),
    ]);
    expect(session.state.waiting[0]?.plan.given).toEqual({ repair: 'T-1', stage: 'live' });
  });

  test('shows the preview of the latest plan, whichever answer comes last', async () => {
    const { client, session } = open();
    await session.bringIn([odd]);
    const first = planOf({ decimalMark: '.' });
    const second = planOf({ dateOrder: 'day-month-year' });
    const answers = new Map<FilePlan, (preview: Preview) => void>();
    client.answers.previewFile = ([, plan]) =>
      new Promise((resolve) => {
        answers.set(plan, resolve);
      });
    const changes = [session.changePlan(odd, () => first), session.changePlan(odd, () => second)];
    answers.get(second)!(previewOf(second));
    answers.get(first)!(previewOf(first));
    await Promise.all(changes);
    expect(session.state.waiting[0]?.preview?.plan).toBe(second);
  });
});

describe('replan(file, choices)', () => {
  test('guesses anew with what was chosen, and keeps what was stated', async () => {
    const { client, session } = open();
    await session.bringIn([odd]);
    await session.changePlan(odd, (plan) => ({ ...plan, given: { repair: 'T-1' } }));
    await session.replan(odd, { separator: '\t' });
    expect(client.calls.findLast(({ name }) => name === 'planFile')?.args).toEqual([odd, { separator: '\t' }]);
    await session.replan(odd, { encoding: 'utf-16le' });
    expect(session.state.waiting[0]).toMatchObject({
      choices: { separator: '\t', encoding: 'utf-16le' },
      plan: { given: { repair: 'T-1' } },
    });
  });

  test('says why the file cannot be read so, and leaves the plan', async () => {
    const { client, session } = open();
    await session.bringIn([odd]);
    client.answers.planFile = () => ({ refused: 'That is binary data.' });
    await session.replan(odd, { encoding: 'utf-16le' });
    expect(session.state.waiting[0]).toMatchObject({ problem: 'That is binary data.', choices: {}, plan: asking });
  });
});

test('skipFile(file) leaves the file out and says so', async () => {
  const { session, brought } = open();
  await session.bringIn([odd]);
  session.skipFile(odd);
  expect(session.state.waiting).toEqual([]);
  expect(session.state.outcome?.refused[0]?.file).toBe('odd.csv');
  expect(brought()).toEqual([]);
});

describe('reread(hash, name)', () => {
  test('asks about the kept file again, and puts it in the place of its import', async () => {
    const { client, session } = open();
    await session.bringIn([clean]);
    expect(session.hasOriginal('clean.csv')).toBe(true);
    await session.reread('clean.csv', 'clean.csv');
    expect(session.state.waiting).toMatchObject([{ file: clean, replaces: 'clean.csv' }]);
    client.calls.length = 0;
    const plan = planOf({ decimalMark: '.' });
    await session.settlePlan(clean, plan);
    expect(client.calls.slice(0, 2)).toEqual([
      { name: 'takeBack', args: ['clean.csv'] },
      { name: 'bringIn', args: [[clean], [plan]] },
    ]);
    expect(session.hasOriginal('clean.csv')).toBe(true);
  });

  test('puts the import back as it was where the new reading is cancelled', async () => {
    const { client, session, brought } = open();
    await session.bringIn([clean]);
    await session.reread('clean.csv', 'clean.csv');
    client.answers.bringIn = ([files, plans]) => {
      if (plans !== undefined) throw new CallCancelled('Stopped.');
      return read(files);
    };
    await session.settlePlan(clean, planOf({ decimalMark: '.' }));
    expect(brought().at(-1)).toEqual([[clean]]);
    expect(session.state.problem).toBe('The import was cancelled: clean.csv stays as it was.');
    expect(session.hasOriginal('clean.csv')).toBe(true);
  });

  test('takes another copy of the file, and no other file', async () => {
    const { session } = open();
    const hash = await hashOfFile(odd);
    expect(session.hasOriginal(hash)).toBe(false);
    await session.reread(hash, 'odd.csv', twin);
    expect(session.state.problem).toMatch(/twin\.csv is not the file that was brought in as odd\.csv/);
    expect(session.state.waiting).toEqual([]);
    await session.reread(hash, 'odd.csv', odd);
    expect(session.state.waiting).toMatchObject([{ file: odd, replaces: hash }]);
  });

  test('lets go of a file that cannot be opened any more, and asks for it', async () => {
    const { client, session } = open();
    await session.bringIn([clean]);
    client.answers.planFile = () => Promise.reject(new Error('The file could not be read.'));
    await session.reread('clean.csv', 'clean.csv');
    expect(session.hasOriginal('clean.csv')).toBe(false);
    expect(session.state.problem).toMatch(/choose it again/);
  });
});

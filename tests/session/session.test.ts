import { describe, expect, test } from 'vitest';
import type { BenchSummary, ImportOutcome } from '../../src/session/answers.ts';
import { Session } from '../../src/session/session.ts';
import { CallCancelled, WorkerLost } from '../../src/worker/client.ts';
import { fakeClient, type FakeAnswers } from './fake-client.ts';
import { planOf, previewOf } from './plan-of.ts';

const full: BenchSummary = { readings: 12, repairs: 3, families: 2, bands: 5 };
const empty: BenchSummary = { readings: 0, repairs: 0, families: 0, bands: 0 };
const outcome: ImportOutcome = { records: [], setAside: [], refused: [{ file: 'a.pdf', reason: 'This is no table.' }] };
const sample = [new File(['x'], 'repairs.csv')];
const own = [new File(['y'], 'shift.csv')];

function open(answers: FakeAnswers = {}) {
  const client = fakeClient({
    summary: () => full,
    clear: () => empty,
    shift: () => ({ imports: [], setAside: [] }),
    planFile: () => planOf(),
    previewFile: ([, plan]) => previewOf(plan),
    bringIn: () => outcome,
    ...answers,
  });
  const session = new Session(client, () => Promise.resolve(sample));
  return { client, session };
}

const readOutcome = (files: readonly File[]): ImportOutcome => ({
  records: files.map(({ name }) => ({
    file: name,
    hash: name,
    shape: 'readings',
    encoding: 'utf-8',
    separator: ';',
    rows: 1,
    taken: 1,
    setAside: 0,
    known: 0,
    noData: 0,
    notices: [],
  })),
  setAside: [],
  refused: [],
});

describe('openSample()', () => {
  test('empties the bench, brings the sample in and says that it is the sample', async () => {
    const { client, session } = open();
    await session.openSample();
    expect(client.calls.map(({ name }) => name)).toEqual(['clear', 'bringIn', 'summary']);
    expect(client.calls[1]!.args).toEqual([sample]);
    expect(session.state).toMatchObject({ bench: 'sample', summary: full });
    expect(session.state.importing).toBeUndefined();
  });

  test('says in a sentence that the sample could not be had', async () => {
    const session = new Session(fakeClient({ summary: () => empty }), () => Promise.reject(new Error('No such file')));
    await session.openSample();
    expect(session.state).toMatchObject({ bench: 'own', problem: 'No such file.' });
  });
});

describe('bringIn(files)', () => {
  test('keeps what became of the files and counts a new revision', async () => {
    const { session } = open();
    await session.bringIn(own);
    expect(session.state).toMatchObject({ bench: 'own', outcome, summary: full, revision: 1 });
  });

  test('says that own files were added where the sample is open', async () => {
    const { session } = open({ bringIn: ([files]) => readOutcome(files) });
    await session.openSample();
    await session.bringIn(own);
    expect(session.state.bench).toBe('sample and own');
  });

  test('leaves the sample the sample where nothing of the own files could be read', async () => {
    const { session } = open();
    await session.openSample();
    await session.bringIn(own);
    expect(session.state.bench).toBe('sample');
  });

  test('asks nothing for no files', async () => {
    const { client, session } = open();
    await session.bringIn([]);
    expect(client.calls).toEqual([]);
  });

  test('shows progress while it lasts', async () => {
    const seen: (number | undefined)[] = [];
    const { session } = open({
      bringIn: (_args, { onProgress }) => {
        onProgress?.({ file: 'shift.csv', fileNumber: 1, files: 1, bytes: 5, totalBytes: 10, rows: 7 });
        return outcome;
      },
    });
    session.subscribe(() => seen.push(session.state.importing?.rows));
    await session.bringIn(own);
    expect(seen).toContain(7);
    expect(session.state.importing).toBeUndefined();
  });

  test('turns a failure into a sentence and leaves the bench as the worker says it is', async () => {
    const { session } = open({ bringIn: () => Promise.reject(new Error('shift.csv changed while it was read')) });
    await session.bringIn(own);
    expect(session.state).toMatchObject({ problem: 'shift.csv changed while it was read.', summary: full });
    expect(session.state.outcome).toBeUndefined();
  });

  test('queues a second import until the one in progress has ended', async () => {
    const finish: ((value: ImportOutcome) => void)[] = [];
    const { client, session } = open({
      bringIn: () =>
        new Promise((resolve) => {
          finish.push(resolve);
        }),
    });
    const read = () => client.calls.filter(({ name }) => name === 'bringIn').map(({ args }) => args[0]);
    const first = session.bringIn(own);
    const second = session.bringIn(sample);
    expect(session.state.queued).toBe(1);
    await expect.poll(() => finish.length).toBe(1);
    expect(read()).toEqual([own]);
    finish[0]!(outcome);
    await first;
    await expect.poll(() => finish.length).toBe(2);
    expect(session.state.queued).toBe(0);
    finish[1]!(outcome);
    await second;
    expect(read()).toEqual([own, sample]);
  });

  test('explains a file that cannot be opened through the import itself', async () => {
    const { client, session } = open({ planFile: () => Promise.reject(new Error('NotReadableError')) });
    await session.bringIn(own);
    expect(client.calls.filter(({ name }) => name === 'bringIn')).toHaveLength(1);
  });
});

test('cancelImport() stops the import and says that its files were left out', async () => {
  const { session } = open({
    bringIn: (_args, { signal }) =>
      new Promise((_resolve, reject) => {
        signal?.addEventListener('abort', () => {
          reject(new CallCancelled('Stopped.'));
        });
      }),
  });
  const running = session.bringIn(own);
  session.cancelImport();
  await running;
  expect(session.state.problem).toBe('The import was cancelled: its files were left out.');
  await session.startEmpty();
  expect(session.state.problem).toBeUndefined();
});

test('startEmpty() leaves nothing of the sample', async () => {
  const { session } = open();
  await session.openSample();
  await session.startEmpty();
  expect(session.state).toMatchObject({ bench: 'own', summary: empty });
  expect(session.state.outcome).toBeUndefined();
});

describe('ask(name, args) of a call that changes the bench', () => {
  test('waits until the import before it has ended, and counts a new revision', async () => {
    let finish: (value: ImportOutcome) => void = () => undefined;
    const { client, session } = open({
      bringIn: () =>
        new Promise((resolve) => {
          finish = resolve;
        }),
      takeBack: () => empty,
    });
    const names = () => client.calls.map(({ name }) => name);
    const importing = session.bringIn(own);
    const takingBack = session.ask('takeBack', ['1']);
    await expect.poll(names).toContain('bringIn');
    expect(names()).not.toContain('takeBack');
    finish(outcome);
    await Promise.all([importing, takingBack]);
    expect(names().slice(-3)).toEqual(['summary', 'takeBack', 'summary']);
    expect(session.state.revision).toBe(2);
  });

  test('leaves the revision where a mended row was not admitted', async () => {
    const { client, session } = open({ mendRow: () => 'There is no such day.' });
    expect(await session.ask('mendRow', ['a.csv', 3, 'x'])).toBe('There is no such day.');
    expect(session.state.revision).toBe(0);
    client.answers.mendRow = () => undefined;
    await session.ask('mendRow', ['a.csv', 3, 'y']);
    expect(session.state.revision).toBe(1);
  });
});

describe('a worker that is lost', () => {
  test('empties the bench once, however many calls were lost with it', async () => {
    const { client, session } = open({ families: () => Promise.reject(new WorkerLost('The worker stopped.')) });
    await session.openSample();
    const { revision } = session.state;
    await Promise.allSettled([session.ask('families', []), session.ask('families', [])]);
    expect(session.state).toMatchObject({
      bench: 'own',
      summary: empty,
      revision: revision + 1,
      problem: 'The worker stopped.',
    });
    client.answers.families = () => [];
    await expect(session.ask('families', [])).resolves.toEqual([]);
  });

  test('does not set an empty bench asking again and again', async () => {
    const { session } = open({
      summary: () => empty,
      families: () => Promise.reject(new WorkerLost('The worker did not start.')),
    });
    await session.bringIn(own);
    const { revision } = session.state;
    await expect(session.ask('families', [])).rejects.toBeInstanceOf(WorkerLost);
    expect(session.state.revision).toBe(revision);
  });
});

test('ask(name, args) passes a failure on to whoever asked', async () => {
  const { session } = open({ repair: () => Promise.reject(new Error('No such row.')) });
  await expect(session.ask('repair', ['T-0131'])).rejects.toThrow('No such row.');
  expect(session.state.problem).toBeUndefined();
});

test('subscribe(listener) tells of each change until it is ended', async () => {
  const { session } = open();
  let told = 0;
  const end = session.subscribe(() => told++);
  session.writeNumbersWith(',');
  expect([told, session.state.decimalMark]).toEqual([1, ',']);
  end();
  await session.startEmpty();
  expect(told).toBe(1);
});

test('keeps nothing after the page where no copy of the ledger has a place, and says so', () => {
  expect(open().session.state.kept.keeps).toBe(false);
});

import { describe, expect, test } from 'vitest';
import { backupDue } from '../../src/session/kept-bench.ts';
import { ledgerCopyIn } from '../../src/session/ledger-copy.ts';
import { Session } from '../../src/session/session.ts';
import type { Ledger } from '../../src/store/kept.ts';
import { WorkerLost } from '../../src/worker/client.ts';
import type { KeptAnswer } from '../../src/worker/contract/memory.ts';
import { fakeClient, type FakeAnswers } from './fake-client.ts';

const summary = { readings: 3, repairs: 1, families: 1, bands: 0 };
const ledger: Ledger = { database: 'one', generation: 1, imports: [{ hash: 'a', rows: 3, crc: 7 }], edits: 2 };

function memoryOf(first?: Ledger) {
  const texts = new Map<string, string>();
  const copy = ledgerCopyIn({
    getItem: (name) => texts.get(name) ?? null,
    setItem: (name, text) => texts.set(name, text),
  });
  if (first) copy.write(first);
  return copy;
}

function open(answers: FakeAnswers, copy = memoryOf()) {
  const client = fakeClient({ summary: () => summary, ledger: () => ledger, clear: () => summary, ...answers });
  return { client, copy, session: new Session(client, () => Promise.resolve([]), '.', copy) };
}

const found: KeptAnswer = { keeps: true, found: true, faults: [], misses: false, ledger, canUndoSwitch: false };

describe('Session.start()', () => {
  test('opens the own bench where one is kept, and keeps a copy of its ledger', async () => {
    const { session, copy } = open({ openKept: () => found });
    await session.start();
    expect(session.state).toMatchObject({ bench: 'own', summary, kept: { keeps: true, faults: [] } });
    expect(copy.read()).toEqual(ledger);
  });

  test('opens the sample where nothing is kept', async () => {
    const nothing = { keeps: false, found: false, faults: [], misses: false, canUndoSwitch: false };
    const { session } = open({ openKept: () => nothing });
    await session.start();
    expect(session.state.bench).toBe('sample');
  });

  test('shows what the browser lost instead of the sample, and leaves the copy that knows of it alone', async () => {
    const faults = ['3 readings of 1 import are missing: restore a backup.'];
    const { session, copy } = open(
      {
        openKept: () => ({ keeps: false, found: false, faults, misses: true, canUndoSwitch: false }),
        ledger: () => undefined,
      },
      memoryOf(ledger),
    );
    await session.start();
    expect(session.state).toMatchObject({ bench: 'own', kept: { faults } });
    expect(copy.read()).toEqual(ledger);
  });

  test('hands the copy of the ledger to the worker', async () => {
    const { session, client } = open({ openKept: () => found }, memoryOf(ledger));
    await session.start();
    expect(client.calls[0]).toEqual({ name: 'openKept', args: [ledger] });
  });
});

describe('a worker that is lost', () => {
  test('has what is kept opened again, once, before the next change, and says so', async () => {
    const { session, client } = open({ openKept: () => found, takeBack: () => summary });
    await session.start();
    const error = new WorkerLost('The worker stopped.');
    session.lose(error);
    client.answers.families = () => Promise.reject(error);
    await expect(session.ask('families', [])).rejects.toBe(error);
    await session.ask('takeBack', ['a']);
    const names = client.calls.map(({ name }) => name);
    expect(names.filter((name) => name === 'openKept')).toHaveLength(2);
    expect(names.lastIndexOf('openKept')).toBeLessThan(names.indexOf('takeBack'));
    expect(session.state).toMatchObject({ summary, kept: { keeps: true } });
    expect(session.state.problem).toMatch(/^The worker stopped\. The bench was opened again as it is kept/);
  });

  test('says that nothing is kept where it cannot be opened again', async () => {
    const { session, client } = open({ openKept: () => found });
    await session.start();
    client.answers.openKept = () => Promise.reject(new Error('The storage is gone.'));
    client.answers.ledger = () => undefined;
    session.lose(new WorkerLost('The worker stopped.'));
    await session.openOwn();
    expect(session.state).toMatchObject({ problem: 'The storage is gone.', kept: { keeps: false } });
  });
});

describe('Session.backUp(save)', () => {
  test('counts a backup as saved only once what was written was read back', async () => {
    const file = new Blob(['backup']);
    const confirmed: unknown[] = [];
    const { session } = open({
      openKept: () => found,
      backUp: () => ({ file, seal: 'seal' }),
      confirmBackup: (args) => {
        confirmed.push(args);
        return ledger;
      },
    });
    await session.start();
    await session.backUp('bench.backup', () => Promise.resolve(undefined));
    expect(confirmed).toEqual([]);
    const written = new Blob(['backup']);
    await session.backUp('bench.backup', () => Promise.resolve(written));
    expect(confirmed).toEqual([[written, 'seal']]);
  });

  test('counts one that went to the downloads only once its file was shown and is the one', async () => {
    const shown = new Blob(['backup']);
    const { session, client } = open({
      openKept: () => found,
      backUp: () => ({ file: new Blob(['backup']), seal: 'seal' }),
      confirmBackup: ([file]) => {
        if (file !== shown) throw new Error('This file is another backup.');
        return ledger;
      },
    });
    await session.start();
    await session.showBackup(shown);
    await session.backUp('bench.backup', () => Promise.resolve('unseen'));
    expect(session.state.unseenBackup).toEqual({ name: 'bench.backup', seal: 'seal' });
    expect(client.calls.some(({ name }) => name === 'confirmBackup')).toBe(false);
    await session.showBackup(new Blob(['another']));
    expect(session.state).toMatchObject({ problem: 'This file is another backup.', unseenBackup: { seal: 'seal' } });
    await session.showBackup(shown);
    expect(session.state.unseenBackup).toBeUndefined();
  });
});

describe('backupDue(ledger, now)', () => {
  const now = Date.UTC(2026, 3, 20);
  const day = 86_400_000;
  const after = (imports: number, days: number): Ledger => ({
    ...ledger,
    imports: Array.from({ length: 12 }, (_, index) => ({ hash: `${index}`, rows: 1, crc: 1 })),
    lastBackup: { at: now - days * day, seal: 's', imports: 12 - imports, holdsAll: imports === 0 },
  });

  test('asks for a first backup, then after ten imports or seven days with changes', () => {
    expect(backupDue({ ...ledger, imports: [] }, now)).toBeUndefined();
    expect(backupDue(ledger, now)).toContain('No backup was saved yet');
    expect(backupDue(after(10, 1), now)).toContain('10 imports');
    expect(backupDue(after(9, 1), now)).toBeUndefined();
    expect(backupDue(after(1, 7), now)).toContain('7 days old');
    expect(backupDue(after(0, 30), now)).toBeUndefined();
  });
});

describe('ledgerCopyIn(storage)', () => {
  test('takes a text that is no ledger for none, and a storage that refuses for an empty one', () => {
    const refuse = (): never => {
      throw new Error('refused');
    };
    expect(ledgerCopyIn({ getItem: () => '{"imports":[1]}', setItem: refuse }).read()).toBeUndefined();
    expect(ledgerCopyIn({ getItem: () => 'no JSON', setItem: refuse }).read()).toBeUndefined();
    expect(ledgerCopyIn({ getItem: refuse, setItem: refuse }).read()).toBeUndefined();
    expect(() => { ledgerCopyIn({ getItem: refuse, setItem: refuse }).write(ledger); }).not.toThrow(); // prettier-ignore
  });
});

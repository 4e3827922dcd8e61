import { beforeAll, describe, expect, test } from 'vitest';
import { backupParts, readBackup, verifyBackup } from '../../src/store/read-backup.ts';
import { StoreError } from '../../src/store/store-error.ts';
import { jsonBytes } from '../../src/store/json-bytes.ts';
import type { Edit, NewImport } from '../../src/store/kept.ts';
import { backupOf, framesIn, sealed } from './backup-file.ts';
import { damagedBackups } from './damaged-backups.ts';
import { bandOf, importOf, state } from './fixtures.ts';

const edits: readonly Edit[] = [
  { step: 1, at: 0, who: 'A. Tern', why: 'typed in', changes: [{ part: 'bands', new: bandOf('12V main', 5) }] },
];
let imports: readonly NewImport[];
let sound: Blob;

beforeAll(async () => {
  imports = [await importOf(1, 40), await importOf(2, 30)];
  sound = await backupOf(state, edits, imports);
});

async function reasonOf(file: Blob): Promise<string> {
  const outcome = await readBackup(file).catch((cause: unknown) => cause);
  if (!(outcome instanceof StoreError)) return `taken: ${JSON.stringify(outcome)}`;
  return outcome.fault === 'refused' ? outcome.message : `${outcome.fault}: ${outcome.message}`;
}

describe('a sound backup', () => {
  test('is read whole, with what it says of itself', async () => {
    const summary = await readBackup(sound);
    expect(summary.header).toMatchObject({ format: 2, imports: 2, readings: 70, edits: 1 });
    expect(summary.state).toEqual(state);
  });

  test('holds its parts in order', async () => {
    const kinds: string[] = [];
    for await (const part of backupParts(sound)) kinds.push(part.kind);
    const one = ['import', 'details', 'chunk', 'original'];
    expect(kinds).toEqual(['header', 'state', 'edits', ...one, ...one, 'end']);
  });

  test('is found to be the one of its seal and no other', async () => {
    const { seal } = await readBackup(sound);
    expect(await verifyBackup(sound, seal)).toMatchObject({ seal });
    const other = await backupOf(state, [], imports);
    await expect(verifyBackup(other, seal)).rejects.toThrow('another backup');
  });

  test('of the first format, without settings and views, is read with none', async () => {
    const { settings, views, ...first } = state;
    expect([settings, views].every((part) => part.length > 0)).toBe(true);
    const frames = await framesIn(await backupOf(state, edits, imports));
    const { header } = await readBackup(sound);
    const old = await sealed(
      frames.map(({ kind, content }) => {
        if (kind === 'header') return { kind, content: jsonBytes({ ...header, format: 1 }) };
        return { kind, content: kind === 'state' ? jsonBytes(first) : content };
      }),
    );
    expect((await readBackup(old)).state).toEqual({ ...first, settings: [], views: [] });
  });

  test('without anything in it is one too', async () => {
    const empty = await sealed((await framesIn(await backupOf(state, [], []))).filter(({ kind }) => kind !== 'edits'));
    expect((await readBackup(empty)).header.imports).toBe(0);
  });
});

describe('a backup is refused with its reason where', () => {
  test('it is another file', async () => {
    expect(await reasonOf(new Blob(['time,repair,reading\n']))).toBe('This file is no backup of this program.');
    expect(await reasonOf(new Blob([]))).toBe('This file is no backup of this program.');
  });

  test('it is cut off', async () => {
    expect(await reasonOf(sound.slice(0, sound.size - 1))).toMatch(/^This backup is cut off after \d+ bytes/);
  });

  test('something stands behind its end', async () => {
    expect(await reasonOf(new Blob([sound, 'x']))).toMatch(/^This backup has 1 bytes after its end/);
  });

  test('it is of a newer version or another program', async () => {
    const damaged = await damagedBackups(sound, 1);
    const reason = (damage: string): Promise<string> => reasonOf(damaged.find((one) => one.damage === damage)!.file);
    expect(await reason('a newer format')).toMatch(/^A newer version of this page made this backup \(format 3;/);
    expect(await reason('another program')).toBe('This is the backup of another program: nothing of it was taken.');
  });

  test('a piece of a file unpacks to more than a piece may hold', async () => {
    const stream = new Blob([new Uint8Array(5 * 1024 * 1024)]).stream().pipeThrough(new CompressionStream('gzip'));
    const bomb = new Uint8Array(await new Response(stream).arrayBuffer());
    const frames = await framesIn(sound);
    const at = frames.findIndex(({ kind }) => kind === 'original');
    const file = await sealed(frames.with(at, { kind: 'original', content: Uint8Array.of(1, ...bomb) }));
    expect(await reasonOf(file)).toMatch(/^This backup is damaged/);
  });
});

test('three hundred damaged backups are all refused, each with a sentence, and leave nothing on any prototype', async () => {
  const before = Reflect.ownKeys(Object.prototype);
  const damaged = await damagedBackups(sound, 20260314);
  expect(damaged).toHaveLength(300);
  const taken: string[] = [];
  for (const { damage, file } of damaged) {
    const reason = await reasonOf(file);
    if (!/^(?:This|A newer).*\.$/.test(reason)) taken.push(`${damage}: ${reason}`);
  }
  expect(taken).toEqual([]);
  expect(Reflect.ownKeys(Object.prototype)).toEqual(before);
});

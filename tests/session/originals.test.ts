import { expect, test } from 'vitest';
import type { ImportRecord } from '../../src/domain/import-record.ts';
import { hashOfFile, originalsOf } from '../../src/session/originals.ts';
import { planOf } from './plan-of.ts';

const file = (name: string, text = name) => new File([text], name);
const record = (name: string, hash: string): ImportRecord => ({
  file: name,
  hash,
  shape: 'readings',
  encoding: 'utf-8',
  separator: ',',
  rows: 1,
  taken: 1,
  setAside: 0,
  known: 0,
  noData: 1,
  notices: [],
});

test('files are told apart by their order and their names', () => {
  const files = [file('a.csv'), file('scan.pdf'), file('a.csv', 'grown')];
  const plan = planOf();
  const found = originalsOf(files, [undefined, undefined, plan], {
    records: [record('a.csv', '1'), record('a.csv (2)', '2')],
    setAside: [],
    refused: [{ file: 'scan.pdf', reason: 'This is no table.' }],
  });
  expect([...found]).toEqual([['1', { file: files[0] }], ['2', { file: files[2], plan }]]); // prettier-ignore
});

test('where a file could be either of two, none is guessed', () => {
  const files = [file('a.csv', 'bad'), file('a.csv', 'good')];
  const refused = [{ file: 'a.csv', reason: 'This is no table.' }];
  expect(originalsOf(files, [], { records: [record('a.csv', '1')], setAside: [], refused }).size).toBe(0);
});

test('hashOfFile(file) is SHA-256', async () => {
  // FIPS 180-4, example of the message “abc”, as published with the standard.
  expect(await hashOfFile(file('a.csv', 'abc'))).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  );
});

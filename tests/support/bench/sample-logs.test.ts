import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { sampleLogs } from './sample-logs.ts';

const folder = new URL('../../../sample-logs/', import.meta.url);

test('the sample logs on disk are what the simulation writes, byte for byte', () => {
  const written = sampleLogs();
  expect(readdirSync(folder).sort()).toEqual([...written.keys()].sort());
  for (const [name, text] of written)
    expect(readFileSync(new URL(name, folder)).equals(Buffer.from(text)), name).toBe(true);
});

test('the sample logs tell how many rows must be set aside', () => {
  const readme = sampleLogs().get('README.md') ?? '';
  expect([...readme.matchAll(/Rows to set aside: (\d+)/g)].map(([, rows]) => Number(rows))).toEqual([0, 0, 4, 0, 0]);
});

import { expect, test } from 'vitest';
import { loadSample } from '../../src/session/sample.ts';

test('loadSample() gives the tables of repairs and bands first, and every file with its text', async () => {
  const files = await loadSample();
  expect(files.slice(0, 2).map(({ name }) => name)).toEqual(['repairs.csv', 'bands.csv']);
  expect(files.length).toBeGreaterThan(2);
  for (const file of files) expect(file.size).toBeGreaterThan(100);
});

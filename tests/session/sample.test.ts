import { expect, test } from 'vitest';
import { loadSample } from '../../src/session/sample.ts';

test('loadSample() gives the tables of repairs, bands and meters first, and every file with its text', async () => {
  const files = await loadSample();
  expect(files.slice(0, 3).map(({ name }) => name)).toEqual(['repairs.csv', 'bands.csv', 'meters.csv']);
  expect(files.length).toBeGreaterThan(3);
  for (const file of files) expect(file.size).toBeGreaterThan(100);
});

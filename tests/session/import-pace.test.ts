import { expect, test } from 'vitest';
import { PaceMeter } from '../../src/session/import-pace.ts';

const progress = { file: 'a.csv', fileNumber: 1, files: 2, bytes: 0, totalBytes: 4000, rows: 0 };

test('the pace of a file is measured from its own beginning, once there is something to measure', () => {
  const pace = new PaceMeter();
  expect(pace.measure(progress, 1000)).toEqual(progress);
  expect(pace.measure({ ...progress, bytes: 100, rows: 10 }, 1100).rowsPerSecond).toBeUndefined();
  // 1000 of 4000 bytes and 50 rows in 2 s: 25 rows a second, 6 s left.
  expect(pace.measure({ ...progress, bytes: 1000, rows: 50 }, 3000)).toMatchObject({
    rowsPerSecond: 25,
    secondsLeft: 6,
  });
  const next = { ...progress, fileNumber: 2, bytes: 2000, rows: 30 };
  expect(pace.measure(next, 4000).rowsPerSecond).toBeUndefined();
  expect(pace.measure({ ...next, rows: 60 }, 5000)).toMatchObject({ rowsPerSecond: 60, secondsLeft: 1 });
});

import { describe, expect, test } from 'vitest';
import { readingAt } from '../../src/columns/reading-log.ts';
import { renameLog } from '../../src/columns/rename.ts';
import { logOf } from '../support/readings.ts';

describe('renameLog(log, renaming)', () => {
  test('gives families, points and meters their other names and leaves the log given alone', () => {
    const log = logOf({ family: 'HERON 48', point: '12 V', meter: 'm1' }, { family: 'HERON-48', point: '12V main' });
    const renamed = renameLog(log, {
      family: (name) => name.replace(' ', '-'),
      point: (family, name) => (family === 'HERON-48' && name === '12 V' ? '12V main' : name),
      meter: (name) => name.toUpperCase(),
    });
    const names = [0, 1]
      .map((row) => readingAt(renamed, row))
      .map(({ family, point, meter }) => [family, point, meter]);
    expect(names).toEqual([
      ['HERON-48', '12V main', 'M1'],
      ['HERON-48', '12V main', 'M1'],
    ]);
    expect(renamed.names.checks.size).toBe(1);
    expect(readingAt(log, 0).family).toBe('HERON 48');
  });
});

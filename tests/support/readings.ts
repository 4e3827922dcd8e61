import { LogBuilder } from '../../src/columns/log-builder.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import type { Reading } from '../../src/domain/reading.ts';

/** A reading with what a test does not care about filled in; the line is its place in the log. */
export function reading(given: Partial<Reading>): Reading {
  return {
    time: Date.UTC(2026, 2, 14, 9, 14),
    repair: 'T-0131',
    family: 'HERON-48',
    point: '12V main',
    stage: 'live',
    mode: 'DC volts',
    specimen: 'board',
    state: 'value',
    value: 12,
    prefix: 0,
    decimals: 2,
    meter: 'M1',
    origin: { file: 'shift.csv', line: 2 },
    ...given,
  };
}

/** A log of readings, one a minute. */
export function logOf(...readings: readonly Partial<Reading>[]): ReadingLog {
  const builder = new LogBuilder(undefined, 4);
  readings.forEach((given, index) => {
    builder.add(
      reading({ time: Date.UTC(2026, 2, 14, 9, index), origin: { file: 'shift.csv', line: index + 2 }, ...given }),
    );
  });
  return builder.finish();
}

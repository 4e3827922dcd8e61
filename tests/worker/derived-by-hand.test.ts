import { beforeAll, describe, expect, test } from 'vitest';
import type { DerivedField } from '../../src/columns/derived.ts';
import { DERIVED_FIELDS } from '../../src/columns/derived.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { ask } from '../support/asking.ts';
import { sampleFile } from '../support/sample-file.ts';

/** The derived numbers of the reading on a line of a file, as the grid shows them. */
async function derivedAt(bench: BenchHandlers, file: string, line: number): Promise<Partial<Record<DerivedField, number>>> {
  const query = { filters: [{ field: 'file', oneOf: [file] }], sort: [] } as const;
  const lines = await ask(bench, 'lines', query, 0, 10_000, DERIVED_FIELDS);
  const row = lines.find((one) => 'origin' in one && one.origin.line === line);
  if (row === undefined || !('origin' in row)) throw new Error(`Line ${line} of ${file} holds no reading.`);
  return row.derived ?? {};
} // prettier-ignore

/**
 * The first repair of the sample, T-0001 of HERON-48, worked out by hand from its lines and from the bands of its family:
 * line 3, Q1 D→S as received, 1.843 kΩ, at least 50 kΩ; line 14, the same part out, 1.848 kΩ, at least 1 MΩ; line 15, a
 * new part beside it, 16.51 MΩ; line 16, refitted, 233.2 kΩ; line 18, bulk live, 390.0 V, 380 V to 400 V; line 19,
 * 5V standby, 5.023 V, 5 V within 5 %; line 20, 12V main pin 1, 11.92 V, 12 V within 5 %.
 */
describe('the derived numbers of the sample are those worked out by hand', () => {
  const FILE = 'shifts-2026-01-comma.csv';
  let bench: BenchHandlers;
  beforeAll(async () => {
    bench = createBench();
    await ask(bench, 'bringIn', ['repairs.csv', 'bands.csv', FILE].map(sampleFile));
  });

  test.each([
    [3, 'margin', 1843 - 50_000],
    [14, 'margin', 1848 - 1_000_000],
    [15, 'margin', 16_510_000 - 1_000_000],
    [18, 'margin', 400 - 390],
    [19, 'margin', 5.25 - 5.023],
    [20, 'margin', 11.92 - 11.4],
    [18, 'deviation', 0],
    [19, 'deviation', 0.46],
    [20, 'deviation', -0.666_667],
    [3, 'deviation', NaN],
    [3, 'change', NaN],
    [14, 'change', 5],
    [16, 'change', 231_352],
    [15, 'change', NaN],
    [3, 'ratio', 0.000_111_629],
    [14, 'ratio', 0.000_111_932],
    [16, 'ratio', 0.014_124_773],
    [15, 'ratio', NaN],
    [18, 'ratio', NaN],
  ] as const)('line %i: %s is %d', async (line, field, expected) => {
    const value = (await derivedAt(bench, FILE, line))[field] ?? Infinity;
    if (Number.isNaN(expected)) expect(value).toBeNaN();
    else expect(Math.abs(value - expected)).toBeLessThanOrEqual(5e-6 * Math.max(Math.abs(expected), 1e-4));
  });

  // U by JCGM 100:2008, 4.3.7 and 5.1.2: a = 0.5 % of 5.023 V and 2 mV, 27.115 mV; the last digit, 1 mV, unseen by half;
  // u = √(27.115² / 3 + 1² / 12) mV = 15.658 mV, U = 31.315 mV; and 227 mV are 7.249 of it.
  test('the margin in U is the margin over the uncertainty that the meter’s accuracy gives', async () => {
    expect((await derivedAt(bench, FILE, 19))['margin-in-u']).toBeNaN();
    await ask(bench, 'setMeters', [
      { name: 'M1', accuracies: [{ mode: 'DC volts', upTo: 6, percent: 0.5, counts: 2 }] },
    ]);
    expect((await derivedAt(bench, FILE, 19))['margin-in-u']).toBeCloseTo(7.249, 3);
  });
});

// Iglewicz and Hoaglin 1993: 0.6745 (x − median) / MAD; here the median is 5.04 V and the MAD 0.02 V.
test('robust z is the modified z-score among the numbers of the same check', async () => {
  const bench = createBench();
  const rows = ['5.00', '5.02', '5.04', '5.06', '5.30'].map(
    (value, at) => `2026-04-01T09:0${at}:00,T-0501,HERON-48,5V standby,live,DC volts,${value},V,M1`,
  );
  const text = ['time,repair,family,point,stage,mode,reading,unit,meter', ...rows, ''].join('\n');
  await ask(bench, 'bringIn', [new File([text], 'five.csv')]);
  const expected = [-1.349, -0.6745, 0, 0.6745, 8.7685];
  for (const [at, z] of expected.entries()) {
    expect((await derivedAt(bench, 'five.csv', at + 2))['robust-z']).toBeCloseTo(z, 9);
  }
});

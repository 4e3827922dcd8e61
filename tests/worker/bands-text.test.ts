import { readFileSync } from 'node:fs';
import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { Band, Expectation } from '../../src/domain/band.ts';
import { bandFault } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import { MODES, STAGES } from '../../src/domain/reading.ts';
import { EMPTY_BENCH } from '../../src/worker/bench/bench-data.ts';
import { bandsText } from '../../src/worker/bench/bands-text.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import type { BenchHandlers, CallContext } from '../../src/worker/contract/calls.ts';

const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

async function benchWith(text: string): Promise<BenchHandlers> {
  const bench = createBench();
  const { refused, setAside } = await bench.bringIn(context, [new File([text], 'bands.csv')]);
  expect(refused).toEqual([]);
  expect(setAside).toEqual([]);
  return bench;
}

async function readBack(
  text: string,
): Promise<{ readonly families: readonly Family[]; readonly bands: readonly Band[] }> {
  const { families, bands } = await (await benchWith(text)).bands(context);
  return { families, bands: bands.map(({ band }) => band) };
}

const sample = readFileSync(new URL('../../sample-logs/bands.csv', import.meta.url), 'utf8');

/** The bench of some families and bands, as edits leave it. */
function text(families: readonly Family[], bands: readonly Band[]): string {
  return bandsText({ ...EMPTY_BENCH, families: new Map(families.map((family) => [family.name, family])), bands });
}

describe('bandsText()', () => {
  test('writes the sample table again, row for row and cell for cell', async () => {
    const written = await (await benchWith(sample)).bandsText(context);
    expect(written.replaceAll('\r\n', '\n')).toBe(sample);
  });

  test('writes nothing but the header for an empty bench', () => {
    expect(text([], [])).toBe(`${sample.slice(0, sample.indexOf('\n'))}\r\n`);
  });

  test('keeps what a family declares beside its bands: boost, rails, parts that no point measures', async () => {
    const family: Family = {
      name: 'WREN, 12 "B"',
      boost: true,
      points: [
        { name: '12V main a', role: 'main', rail: '12V' },
        { name: '12V main b', role: 'main', rail: '12V' },
        { name: 'Q1 D→S', role: 'part', part: 'Q1' },
      ],
      parts: [
        { designator: 'Q1', nodes: ['drain', 'source'] },
        { designator: 'Q2', nodes: ['source', 'drain'] },
      ],
    };
    expect((await readBack(text([family], []))).families).toEqual([family]);
  });

  test('writes a family that only a band names', async () => {
    const band: Band = {
      family: 'WREN-20',
      point: '5V standby',
      mode: 'DC volts',
      expects: { kind: 'percent', nominal: 5, percent: 5 },
      basis: 'typed in',
    };
    expect((await readBack(text([], [band]))).bands).toEqual([band]);
  });

  test('gives every band back exactly, whatever its kind and its numbers of up to twelve digits', async () => {
    // As many digits as a computed limit has; more than fifteen are no number's own.
    const digits = (value: number): number => Number(value.toPrecision(12));
    const figure = fc.double({ min: -1e9, max: 1e9, noNaN: true }).map(digits).filter((value) => value === 0 || Math.abs(value) > 1e-12); // prettier-ignore
    const share = fc.double({ min: 0.001, max: 99, noNaN: true }).map(digits);
    const expects: fc.Arbitrary<Expectation> = fc.oneof(
      fc.record({ kind: fc.constant('between' as const), low: figure, high: figure }),
      fc.record({ kind: fc.constant('percent' as const), nominal: figure, percent: share }),
      fc.record({ kind: fc.constantFrom('at least' as const, 'open' as const), limit: figure }),
      fc.record({ kind: fc.constantFrom('at most' as const, 'shorted' as const), limit: figure }),
      fc.record({ kind: fc.constant('rectified mains' as const), below: share, above: share }),
      fc.record({ kind: fc.constant('rectified mains' as const), below: share, above: share, mains: share }),
    );
    const band = fc.record({
      expects: expects.filter((one) => bandFault(one) === undefined),
      mode: fc.constantFrom(...MODES),
      stage: fc.option(fc.constantFrom(...STAGES), { nil: undefined }),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(band, { minLength: 1, maxLength: 5 }), async (drafts) => {
        const bands = drafts.map(({ expects: expected, mode, stage }, index): Band => ({
          family: 'WREN-20',
          point: `point ${index}`,
          mode,
          ...(stage === undefined ? {} : { stage }),
          expects: expected,
          basis: 'learned',
          author: 'A. Bench, Tern Lane',
          date: '2026-03-14',
        }));
        // A table does not tell −0 from 0, and neither does a limit.
        expect((await readBack(text([], bands))).bands).toEqual(JSON.parse(JSON.stringify(bands)));
      }),
      { numRuns: 60, seed: 20260314 },
    );
  });
});

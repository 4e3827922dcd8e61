import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { BenchCalls, BenchHandlers, CallContext, CallName, ReadingsQuery } from '../../src/worker/contract.ts';
import { createBench } from '../../src/worker/bench/bench.ts';

const ALL: ReadingsQuery = { filters: [], sort: [] };
const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

/** Asks a bench as the page does, without a worker between. */
async function ask<Name extends CallName>(
  bench: BenchHandlers,
  name: Name,
  ...args: Parameters<BenchCalls[Name]>
): Promise<ReturnType<BenchCalls[Name]>> {
  return bench[name](context, ...args);
}

function sample(name: string): File {
  return new File([readFileSync(new URL(`../../sample-logs/${name}`, import.meta.url))], name);
}

const TABLES = ['repairs.csv', 'bands.csv'];
const SHIFTS = ['shifts-2026-01-comma.csv', 'shifts-2026-02-semicolon.csv', 'shifts-2026-03-tab.tsv'];

async function sampleBench(): Promise<BenchHandlers> {
  const bench = createBench();
  await ask(bench, 'bringIn', [...TABLES, ...SHIFTS].map(sample));
  return bench;
}

describe('bringIn(files)', () => {
  test('reads the sample whole: rows = taken + set aside + known already, for every file', async () => {
    const bench = createBench();
    const { records, refused } = await ask(bench, 'bringIn', [...TABLES, ...SHIFTS].map(sample));
    expect(refused).toEqual([]);
    expect(records.map((record) => record.shape)).toEqual(['repairs', 'bands', 'readings', 'readings', 'readings']);
    for (const record of records) expect(record.taken + record.setAside + record.known, record.file).toBe(record.rows);
    const taken = records
      .filter((record) => record.shape === 'readings')
      .reduce((sum, record) => sum + record.taken, 0);
    expect(await ask(bench, 'summary')).toMatchObject({ readings: taken, repairs: 150, families: 4 });
  });

  test('gives the same bench whichever file comes first', async () => {
    const forward = await sampleBench();
    const backward = createBench();
    await ask(backward, 'bringIn', [...SHIFTS, ...TABLES].map(sample));
    expect(await ask(backward, 'families')).toEqual(await ask(forward, 'families'));
  });

  test('adds nothing when the same bytes come again under another name, and says so', async () => {
    const bench = await sampleBench();
    const before = await ask(bench, 'summary');
    const bytes = readFileSync(new URL(`../../sample-logs/${SHIFTS[0]!}`, import.meta.url));
    const { records } = await ask(bench, 'bringIn', [new File([bytes], 'again.csv')]);
    expect(records[0]).toMatchObject({ taken: 0, known: records[0]?.rows });
    expect(records[0]?.notices[0]).toContain('brought in before as shifts-2026-01-comma.csv');
    expect(await ask(bench, 'summary')).toEqual(before);
  });

  test('refuses what is no table with a sentence and brings the others in', async () => {
    const bench = createBench();
    const files = [new File([], 'empty.csv'), new File(['%PDF-1.7\n…'], 'scan.csv'), sample(SHIFTS[0]!)];
    const { refused, records } = await ask(bench, 'bringIn', files);
    expect(refused.map(({ file }) => file)).toEqual(['empty.csv', 'scan.csv']);
    expect(refused.map(({ reason }) => /[.!]$/.test(reason))).toEqual([true, true]);
    expect(records).toHaveLength(1);
  });

  test('changes nothing when it is cancelled', async () => {
    const bench = createBench();
    const abort = new AbortController();
    const running = bench.bringIn({ signal: abort.signal, report: () => { abort.abort(); } }, SHIFTS.map(sample)); // prettier-ignore
    await expect(running).rejects.toThrow();
    expect(await ask(bench, 'summary')).toMatchObject({ readings: 0, repairs: 0 });
  });
});

describe('readings', () => {
  test('windows of a query add up to its count, in its order', async () => {
    const bench = await sampleBench();
    const query: ReadingsQuery = {
      filters: [{ field: 'family', oneOf: ['HERON-48'] }, { field: 'verdict', oneOf: ['fail'] }], // prettier-ignore
      sort: [{ field: 'reading', descending: true }],
    };
    const { readings, outOfBand } = await ask(bench, 'count', query);
    expect(outOfBand).toBe(readings);
    const first = await ask(bench, 'window', query, 0, 50);
    const rest = await ask(bench, 'window', query, 50, readings);
    const rows = [...first, ...rest];
    expect(rows).toHaveLength(readings);
    expect(new Set(rows.map((row) => row.family))).toEqual(new Set(['HERON-48']));
    const numbers = rows.filter((row) => row.state === 'value').map((row) => row.value);
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
    expect(await ask(bench, 'placeOf', query, rows[7]!.row)).toBe(7);
    expect(await ask(bench, 'placeOf', { ...query, filters: [{ field: 'text', contains: 'no such text' }] }, 0)).toBe(
      -1,
    );
  });

  test('facets count every reading once', async () => {
    const bench = await sampleBench();
    const { readings } = await ask(bench, 'count', ALL);
    for (const field of ['family', 'stage', 'verdict', 'repair'] as const) {
      const values = await ask(bench, 'facet', ALL, field);
      expect(
        values.reduce((sum, { count }) => sum + count, 0),
        field,
      ).toBe(readings);
    }
  });

  test('a selection of one point has statistics, one of two units has only counts', async () => {
    const bench = await sampleBench();
    const bulk: ReadingsQuery = { filters: [{ field: 'point', oneOf: ['bulk'] }], sort: [] };
    const { readings } = await ask(bench, 'count', bulk);
    const summary = await ask(bench, 'summarise', bulk, 0, readings - 1);
    expect(summary.numbers?.unit).toBe('V');
    expect(summary.numbers?.minimum).toBeLessThanOrEqual(summary.numbers!.median);
    const mixed = await ask(bench, 'summarise', ALL, 0, 200);
    expect(mixed).toMatchObject({ rows: 201 });
    expect(mixed.numbers).toBeUndefined();
  });

  test('readings of a family without bands stand without verdict', async () => {
    const bench = await sampleBench();
    const query: ReadingsQuery = { filters: [{ field: 'family', oneOf: ['SISKIN-40'] }], sort: [] };
    const rows = await ask(bench, 'window', query, 0, 10_000);
    expect(rows.length).toBeGreaterThan(50);
    expect(new Set(rows.map((row) => row.verdict))).toEqual(new Set([0]));
  });
});

describe('repairs, families and bands', () => {
  test('a repair tells its readings in order of time, and what they prove of its parts', async () => {
    const bench = await sampleBench();
    const story = await ask(bench, 'repair', 'T-0003', '.');
    const times = story!.readings.map((reading) => reading.time);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(
      story!.parts
        .filter((part) => part.replaced)
        .map((part) => part.part)
        .sort(),
    ).toEqual(['F1', 'Q1']);
    expect(await ask(bench, 'repair', 'T-9999', '.')).toBeUndefined();
  });

  test('a family counts its failures over all of its repairs', async () => {
    const bench = await sampleBench();
    const lines = await ask(bench, 'families');
    const heron = lines.find((line) => line.family === 'HERON-48')!;
    const patterns = await ask(bench, 'family', 'HERON-48');
    expect(patterns?.repairs).toBe(heron.repairs);
    expect(patterns!.parts.some((part) => part.failed > 5)).toBe(true);
    for (const part of patterns!.parts) expect(part.shorted + part.leaky + part.open, part.part).toBe(part.failed);
    expect(await ask(bench, 'family', 'no such family')).toBeUndefined();
  });

  test('every band says how much it judged, and checks without a band are listed', async () => {
    const bench = await sampleBench();
    const { bands, without } = await ask(bench, 'bands');
    const judged = bands.reduce((sum, line) => sum + line.readings, 0);
    const unjudged = without.reduce((sum, line) => sum + line.readings, 0);
    expect(judged + unjudged).toBe((await ask(bench, 'count', ALL)).readings);
    expect(new Set(without.map((line) => line.family))).toContain('SISKIN-40');
  });
});

describe('setting bands', () => {
  const check = { family: 'SISKIN-40', point: '5V standby', stage: 'live', mode: 'DC volts' } as const;
  const settings = { content: 0.95, confidence: 0.95, sides: 'both', keptRows: [] } as const;

  test('a band is proposed, tried, accepted, and taken back again', async () => {
    const bench = await sampleBench();
    const line = await ask(bench, 'propose', check, settings);
    expect(line.proposal?.band.basis).toBe('learned');
    expect(line.proposal?.trial.goodStopped.of).toBeGreaterThan(1);
    const before = await ask(bench, 'facet', ALL, 'verdict');
    const { readings, changes } = await ask(bench, 'setBands', [line.proposal!.band]);
    expect(readings).toBeGreaterThan(0);
    expect(new Set(changes.map(({ from }) => from))).toEqual(new Set(['no band']));
    expect(await ask(bench, 'undo')).toMatchObject({ readings });
    expect(await ask(bench, 'facet', ALL, 'verdict')).toEqual(before);
    expect(await ask(bench, 'undo')).toBeUndefined();
  });

  test('a band that cannot be used is refused with a sentence and changes nothing', async () => {
    const bench = await sampleBench();
    const swapped = { ...check, expects: { kind: 'between', low: 6, high: 5 }, basis: 'typed in' } as const;
    await expect(ask(bench, 'setBands', [swapped])).rejects.toThrow('swap them');
    expect((await ask(bench, 'bands')).bands.some((line) => line.band.family === 'SISKIN-40')).toBe(false);
  });

  test('a replaced band goes to the history of its place', async () => {
    const bench = await sampleBench();
    const first = { ...check, expects: { kind: 'percent', nominal: 5, percent: 5 }, basis: 'board marking' } as const;
    await ask(bench, 'setBands', [first]);
    await ask(bench, 'setBands', [{ ...first, expects: { kind: 'percent', nominal: 5, percent: 3 } }]);
    expect(await ask(bench, 'bandHistory', first)).toEqual([first]);
  });

  test('proposals for a whole new family come in one table', async () => {
    const bench = await sampleBench();
    const lines = await ask(bench, 'proposeFamily', 'SISKIN-40', settings);
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) expect(line.proposal === undefined).toBe(line.reason !== undefined);
  });
});

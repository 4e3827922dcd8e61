import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { ask } from '../support/asking.ts';
import { LEARNING } from '../support/learning-settings.ts';
import { sampleFile } from '../support/sample-file.ts';

const ALL: ReadingsQuery = { filters: [], sort: [] };

const TABLES = ['repairs.csv', 'bands.csv'];
const SHIFTS = ['shifts-2026-01-comma.csv', 'shifts-2026-02-semicolon.csv', 'shifts-2026-03-tab.tsv'];

async function sampleBench(): Promise<BenchHandlers> {
  const bench = createBench();
  await ask(bench, 'bringIn', [...TABLES, ...SHIFTS].map(sampleFile));
  return bench;
}

describe('bringIn(files)', () => {
  test('reads the sample whole: rows = taken + set aside + known already, for every file', async () => {
    const bench = createBench();
    const { records, refused } = await ask(bench, 'bringIn', [...TABLES, ...SHIFTS].map(sampleFile));
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
    await ask(backward, 'bringIn', [...SHIFTS, ...TABLES].map(sampleFile));
    expect(await ask(backward, 'families')).toEqual(await ask(forward, 'families'));
  });

  test('two files that overlap give the same readings in either order, also where only a repair tells the family', async () => {
    const head = 'time,repair,family,point,stage,mode,value,unit,meter\n';
    const line = (minute: number, family: string): string =>
      `2026-01-05 09:${minute},R-1,${family},C1,refitted,DC volts,${minute}.0,V,M1\n`;
    const named = new File([head, line(10, 'PLOVER-32'), line(20, 'PLOVER-32')], 'first.csv');
    const unnamed = new File([head, line(20, ''), line(30, '')], 'second.csv');
    const repairs = new File(['repair,family,complaint,outcome\nR-1,PLOVER-32,dead,returned\n'], 'repairs.csv');
    const orders = [[repairs, named, unnamed], [repairs, unnamed, named], [unnamed, repairs, named]]; // prettier-ignore
    for (const files of orders) {
      const bench = createBench();
      for (const file of files) expect((await ask(bench, 'bringIn', [file])).refused).toEqual([]);
      expect((await ask(bench, 'summary')).readings, files.map(({ name }) => name).join()).toBe(3);
    }
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
    const files = [new File([], 'empty.csv'), new File(['%PDF-1.7\n…'], 'scan.csv'), sampleFile(SHIFTS[0]!)];
    const { refused, records } = await ask(bench, 'bringIn', files);
    expect(refused.map(({ file }) => file)).toEqual(['empty.csv', 'scan.csv']);
    expect(refused.map(({ reason }) => /[.!]$/.test(reason))).toEqual([true, true]);
    expect(records).toHaveLength(1);
  });

  test('changes nothing when it is cancelled', async () => {
    const bench = createBench();
    const abort = new AbortController();
    const running = bench.bringIn({ signal: abort.signal, report: () => { abort.abort(); } }, SHIFTS.map(sampleFile)); // prettier-ignore
    await expect(running).rejects.toThrow();
    expect(await ask(bench, 'summary')).toMatchObject({ readings: 0, repairs: 0 });
  });
});

const HEADER = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const ROWS = [
  '2026-04-01T09:00:00,T-0501,HERON-48,5V standby,live,DC volts,board,5.02,V,M1',
  '2026-04-01T09:01:00,T-0501,HERON-48,bulk,live,DC volts,board,39O.1,V,M1',
  '2026-04-01T09:02:00,T-0501,HERON-48,backlight,live,DC volts,board,121.6,V,M1',
];
const logFile = (name: string, rows: readonly string[]): File => new File([[HEADER, ...rows, ''].join('\n')], name);

describe('imports', () => {
  test('a log that grew adds only its new rows, under a name of its own', async () => {
    const bench = createBench();
    await ask(bench, 'bringIn', [logFile('april.csv', ROWS.slice(0, 1))]);
    const { records } = await ask(bench, 'bringIn', [logFile('april.csv', ROWS)]);
    expect(records[0]).toMatchObject({ file: 'april.csv (2)', rows: 3, taken: 1, setAside: 1, known: 1 });
    expect((await ask(bench, 'summary')).readings).toBe(2);
  });

  test('a row that was set aside is mended in place, and admitted under its own line', async () => {
    const bench = createBench();
    await ask(bench, 'bringIn', [logFile('april.csv', ROWS)]);
    const [problem] = (await ask(bench, 'shift')).setAside;
    expect(problem).toMatchObject({ file: 'april.csv', line: 3, column: 'reading' });
    expect(await ask(bench, 'mendRow', 'april.csv', 3, ROWS[1]!.replace('39O', '39x'))).toContain('39x.1');
    expect(await ask(bench, 'mendRow', 'april.csv', 3, ROWS[1]!.replace('39O', '390'))).toBeUndefined();
    const { imports, setAside } = await ask(bench, 'shift');
    expect(setAside).toEqual([]);
    expect(imports[0]).toMatchObject({ rows: 3, taken: 3, setAside: 0 });
    const bulk = { filters: [{ field: 'point', oneOf: ['bulk'] }], sort: [] } as const;
    expect((await ask(bench, 'window', bulk, 0, 1))[0]).toMatchObject({
      value: 390.1,
      origin: { file: 'april.csv', line: 3 },
    });
  });

  test('rows that lack one thing are mended together, after a look at what comes of it', async () => {
    const bench = createBench();
    const rows = [0, 1, 2].map((at) =>
      ROWS[0]!.replace(':00', `:0${at}`).replace(',live,', at === 1 ? ',live,' : ',,'),
    );
    await ask(bench, 'bringIn', [logFile('april.csv', rows)]);
    const { setAside } = await ask(bench, 'shift');
    expect(setAside.map(({ line }) => line)).toEqual([2, 4]);
    const mend = { given: { stage: 'run-in' } } as const;
    expect(await ask(bench, 'tryMend', setAside, mend)).toMatchObject({
      admitted: 2,
      left: 0,
      readings: [{ stage: 'run-in', origin: { line: 2 } }, { origin: { line: 4 } }],
    });
    expect((await ask(bench, 'shift')).setAside).toHaveLength(2);
    await ask(bench, 'mendRows', setAside, mend);
    const after = await ask(bench, 'shift');
    expect(after.setAside).toEqual([]);
    expect(after.imports[0]).toMatchObject({ rows: 3, taken: 3, setAside: 0 });
    const all = await ask(bench, 'window', { filters: [], sort: [] }, 0, 3);
    expect(all.map(({ stage, origin }) => [origin.line, stage])).toEqual(expect.arrayContaining([[2, 'run-in'], [3, 'live'], [4, 'run-in']])); // prettier-ignore
  });

  test('rows that a mend leaves unreadable stay as they were', async () => {
    const bench = createBench();
    const rows = ['39O.1', '39O.1', '39x'].map((text, at) => ROWS[1]!.replace('39O.1', text).replace(':00', `:0${at}`)); // prettier-ignore
    await ask(bench, 'bringIn', [logFile('april.csv', rows)]);
    const { setAside } = await ask(bench, 'shift');
    expect(await ask(bench, 'mendRows', setAside, { text: '39O', by: '390' })).toMatchObject({ admitted: 2, left: 1 });
    const after = await ask(bench, 'shift');
    expect(after.setAside).toEqual(setAside.slice(2));
    expect(after.imports[0]).toMatchObject({ rows: 3, taken: 2, setAside: 1 });
  });

  test('rows are let go, and saved as CSV before that', async () => {
    const bench = createBench();
    await ask(bench, 'bringIn', [logFile('april.csv', ROWS)]);
    const text = await ask(bench, 'setAsideText');
    expect(text.split('\r\n')[0]).toBe('file,line,column,content,reason');
    expect(text).toContain('39O.1');
    expect((await ask(bench, 'letGo', [{ file: 'april.csv', line: 3 }])).setAside).toEqual([]);
  });

  test('rows set aside are saved exactly, or so that no spreadsheet takes one for a formula', async () => {
    const bench = createBench();
    await ask(bench, 'bringIn', [logFile('march.csv', [ROWS[0]!, ROWS[1]!.replace('2026-04-01T09:01:00', '=1+1')])]);
    const [exact, guarded] = [await ask(bench, 'setAsideText'), await ask(bench, 'setAsideText', true)];
    expect(exact).toContain(',"=1+1,T-0501,');
    expect(guarded).toBe(exact.replace(',"=1+1', `,"'=1+1`));
  });

  test('an import is taken back whole, a table with what it had replaced', async () => {
    const bench = await sampleBench();
    const before = await ask(bench, 'summary');
    const repair = await ask(bench, 'repair', 'T-0003');
    const changed = new File(
      ['repair,family,complaint,received\nT-0003,PLOVER-32,flicker,2026-01-02\n'],
      'corrected.csv',
    );
    const { records } = await ask(bench, 'bringIn', [changed, logFile('april.csv', ROWS)]);
    expect((await ask(bench, 'repair', 'T-0003'))?.line.repair.complaint).toBe('flicker');
    for (const { hash } of records) await ask(bench, 'takeBack', hash);
    expect(await ask(bench, 'summary')).toEqual(before);
    expect(await ask(bench, 'repair', 'T-0003')).toEqual(repair);
  });

  test('a settled plan is remembered for the next file with its header, and named in the import', async () => {
    const bench = createBench();
    const odd = (name: string, value: string): File =>
      new File([`when;board;where;zzz\n2026-04-01 09:00;T-1;bulk;${value}\n`], name);
    const plan = await ask(bench, 'planFile', odd('a.csv', '390,1'));
    if ('refused' in plan) throw new Error(plan.refused);
    expect(plan.questions.length).toBeGreaterThan(0);
    const fields = ['time', 'repair', 'point', 'reading'] as const;
    const columns = plan.columns.map((use, at) => ({ ...use, field: fields[at]!, doubtful: false }));
    const settledPlan = { ...plan, shape: 'readings', columns, given: { stage: 'live', mode: 'DC volts' } } as const;
    await ask(bench, 'bringIn', [odd('a.csv', '390,1')], [settledPlan]);
    const next = await ask(bench, 'planFile', odd('b.csv', '391,2'));
    if ('refused' in next) throw new Error(next.refused);
    expect(next.questions.map((question) => question.about)).toEqual(['given']);
    expect(next.columns.map((use) => use.field)).toEqual([...fields]);
  });

  test('a name that nothing knows is asked for once; as another name it is put right, also in later files', async () => {
    const bench = await sampleBench();
    await ask(bench, 'bringIn', [
      logFile(
        'april.csv',
        ROWS.map((row) => row.replace('HERON-48', 'HERON 48')),
      ),
    ]);
    const unknown = await ask(bench, 'unknownNames');
    const heron = unknown.find(({ name }) => name === 'HERON 48');
    expect(heron).toMatchObject({ kind: 'family', readings: 2 });
    expect(heron?.alike[0]).toBe('HERON-48');
    expect(heron?.same).toBe('HERON-48');
    await ask(bench, 'answerNames', [{ kind: 'family', name: 'HERON 48', meaning: 'HERON-48' }]);
    await ask(bench, 'answerNames', [{ kind: 'family', name: 'SISKIN-40' }]);
    expect((await ask(bench, 'unknownNames')).filter(({ kind }) => kind === 'family')).toEqual([]);
    const later = ROWS[0]!.replace('HERON-48', 'HERON 48').replace('09:00', '11:00');
    await ask(bench, 'bringIn', [logFile('may.csv', [later])]);
    expect((await ask(bench, 'families')).map(({ family }) => family)).not.toContain('HERON 48');
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
    const identity = { ...rows[7]!.origin, nth: rows[7]!.nth ?? 0 };
    expect(await ask(bench, 'placeOf', query, identity)).toBe(7);
    const none: ReadingsQuery = { ...query, filters: [{ field: 'text', contains: 'no such text' }] };
    expect(await ask(bench, 'placeOf', none, identity)).toBe(-1);
    expect(await ask(bench, 'placeOf', query, { ...identity, line: 0 })).toBe(-1);
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
    const query = { kitShare: 0.9, stockWeeks: 4, stockEnough: 0.95 };
    const page = await ask(bench, 'familyPage', { ...query, family: 'HERON-48' });
    expect(page?.repairs).toBe(heron.repairs);
    expect(page!.failures.some((part) => part.failed > 5)).toBe(true);
    for (const part of page!.failures) expect(part.shorted + part.leaky + part.open, part.part).toBe(part.failed);
    expect(await ask(bench, 'familyPage', { ...query, family: 'no such family' })).toBeUndefined();
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

  test('a band is proposed, tried, accepted, and taken back again', async () => {
    const bench = await sampleBench();
    const line = await ask(bench, 'propose', check, LEARNING);
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
    const lines = await ask(bench, 'proposeFamily', 'SISKIN-40', LEARNING);
    expect(lines.length).toBeGreaterThan(5);
    for (const line of lines) expect(line.proposal === undefined).toBe(line.reason !== undefined);
  });
});

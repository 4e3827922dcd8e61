import { beforeAll, describe, expect, test, vi } from 'vitest';
import type { ReadingsQuery } from '../../src/columns/query.ts';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import type { FamilyPage, FamilyQuery, RepairsQuery } from '../../src/worker/contract/families.ts';
import type { WorkProgress } from '../../src/worker/contract/progress.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { ask, context } from '../support/asking.ts';
import { sampleFile } from '../support/sample-file.ts';

const FILES = [
  'repairs.csv',
  'bands.csv',
  'shifts-2026-01-comma.csv',
  'shifts-2026-02-semicolon.csv',
  'shifts-2026-03-tab.tsv',
];
const asked: Omit<FamilyQuery, 'family'> = {
  watched: Date.UTC(2026, 3, 15),
  kitShare: 0.8,
  stockWeeks: 4,
  stockEnough: 0.95,
};

async function pageOf(
  bench: BenchHandlers,
  query: Partial<FamilyQuery> & { readonly family: string },
): Promise<FamilyPage> {
  const page = await ask(bench, 'familyPage', { ...asked, ...query });
  if (page === undefined) throw new Error(`No page of ${query.family}.`);
  return page;
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}

/** All numbers of an answer, but for limits of bands and of slopes, which may be infinite, and readings, which may be none. */
function numbersIn(value: unknown, path = ''): readonly (readonly [string, number])[] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return [];
  return Object.entries(value).flatMap(([key, inner]) => numbersIn(inner, `${path}.${key}`));
}

async function sampleBench(): Promise<BenchHandlers> {
  const bench = createBench();
  await ask(bench, 'bringIn', FILES.map(sampleFile));
  return bench;
}

let sample: BenchHandlers;
beforeAll(async () => {
  sample = await sampleBench();
});

describe.each(['PLOVER-32', 'HERON-48', 'CURLEW-60', 'SISKIN-40'])('the page of %s over the sample', (family) => {
  test('counts each repair once wherever it counts repairs', async () => {
    const page = await pageOf(sample, { family });
    const { repairs, complaints, holding, failures, inCircuit, overTime } = page;
    expect(repairs).toBe(page.allRepairs);
    expect(sum(complaints.rows.map((row) => row.repairs)) + complaints.withoutComplaint).toBe(repairs);
    expect((holding.all?.repairs ?? 0) + sum(Object.values(holding.leftOut))).toBe(repairs);
    expect(sum(holding.groups.map((group) => group.holding?.repairs ?? 0))).toBe(holding.all?.repairs ?? 0);
    for (const one of inCircuit) expect(one.wasIt + one.wasGood + one.unsettled, one.part).toBe(one.readBad);
    for (const part of failures) {
      expect(part.shorted + part.leaky + part.open, part.part).toBeLessThanOrEqual(part.failed);
      expect(part.replacedGood, part.part).toBeLessThanOrEqual(part.replaced);
      expect(part.failed + part.suspected, part.part).toBeLessThanOrEqual(repairs);
      const followed = overTime.find((one) => one.part === part.part);
      expect(sum(followed?.weeks.map(({ failed }) => failed) ?? []), part.part).toBe(part.failed);
    }
  });

  test('agrees with itself on how often a part failed', async () => {
    const { failures, masked, complaints, pairs } = await pageOf(sample, { family });
    for (const { part, failed } of failures) {
      const rate = masked.parts.find((one) => one.part === part);
      expect(rate?.measured ?? 0, part).toBe(failed);
      expect((rate?.read ?? 0) + (rate?.inferred ?? 0), part).toBeLessThanOrEqual((rate?.repairs ?? 0) + 1e-9);
      const told = complaints.rows.flatMap(({ likely }) => likely).filter((one) => one.part === part);
      expect(sum(told.map(({ count }) => count)), part).toBe(failed);
      for (const pair of pairs) if (pair.parts[0] === part) expect(pair.first).toBeLessThanOrEqual(failed);
    }
  });

  test('covers by its kit what it says, and leaves the rest out by name', async () => {
    const { kit, kitCurve } = await pageOf(sample, { family });
    if (kit !== undefined) {
      expect(kit.covered + kit.leftOut.length).toBe(kit.repairs);
      expect(kit.covered).toBeGreaterThanOrEqual(0.8 * kit.repairs);
    }
    expect(kitCurve.map(({ covered }) => covered)).toEqual(
      kitCurve.map(({ covered }) => covered).sort((a, b) => a - b),
    );
  });

  test('holds no number that is none', async () => {
    const { live, overTime, ...page } = await pageOf(sample, { family });
    const weeks = overTime.map(({ trend, ...rest }) => ({ ...rest, slope: trend?.slope }));
    const checks = live.map(({ check }) => check);
    expect(numbersIn({ ...page, weeks, checks }).filter(([, number]) => !Number.isFinite(number))).toEqual([]);
  });
});

describe('filters of the page', () => {
  test('a complaint leaves just its repairs', async () => {
    const { complaints } = await pageOf(sample, { family: 'HERON-48' });
    for (const { complaint, repairs } of complaints.rows) {
      const page = await pageOf(sample, { family: 'HERON-48', complaint });
      expect([page.repairs, page.complaints.rows.map((row) => row.complaint)]).toEqual([repairs, [complaint]]);
      expect(page.allRepairs).toBe(48);
    }
  });

  test('days cut the repairs in two', async () => {
    const whole = await pageOf(sample, { family: 'CURLEW-60' });
    const day = Date.UTC(2026, 1, 10);
    const before = await pageOf(sample, { family: 'CURLEW-60', to: day - 1 });
    const after = await pageOf(sample, { family: 'CURLEW-60', from: day });
    expect(before.repairs).toBeGreaterThan(0);
    expect(before.repairs + after.repairs).toBe(whole.repairs);
    for (const { part, failed } of whole.failures) {
      const parts = [before, after].map(({ failures }) => failures.find((one) => one.part === part)?.failed ?? 0);
      expect(sum(parts), part).toBe(failed);
    }
    expect(after.choices).toEqual(whole.choices);
  });

  test('a meter leaves the repairs with a reading of it, as the readings count them', async () => {
    const page = await pageOf(sample, { family: 'PLOVER-32', meter: 'M2' });
    const filters = [
      { field: 'family', oneOf: ['PLOVER-32'] },
      { field: 'meter', oneOf: ['M2'] },
    ] as const;
    expect(page.repairs).toBe((await ask(sample, 'count', { filters, sort: [] })).repairs);
    expect(page.repairs).toBeLessThan(page.allRepairs);
  });

  test('a bench leaves the repairs that its table says were done there', async () => {
    const { choices, repairs } = await pageOf(sample, { family: 'HERON-48' });
    expect(choices.benches).toEqual(['door', 'window']);
    const pages = await Promise.all(choices.benches.map((bench) => pageOf(sample, { family: 'HERON-48', bench })));
    expect(sum(pages.map((page) => page.repairs))).toBe(repairs);
    expect(pages.every((page) => page.repairs > 0)).toBe(true);
  });

  test('live readings are those of the repairs that are left, and of the meter', async () => {
    const counted = ({ live }: FamilyPage): number =>
      sum(live.map(({ received, returned, without }) => received.count + returned.count + without));
    const readings = async (filters: ReadingsQuery['filters']): Promise<number> =>
      (await ask(sample, 'count', { filters: [...filters, { field: 'stage', oneOf: ['live', 'run-in'] }], sort: [] }))
        .readings;
    const whole = await pageOf(sample, { family: 'HERON-48' });
    expect(counted(whole)).toBe(await readings([{ field: 'family', oneOf: ['HERON-48'] }]));
    const some = await pageOf(sample, { family: 'HERON-48', bench: 'door', meter: 'M1' });
    expect(counted(some)).toBe(
      await readings([{ field: 'repair', oneOf: some.chosen }, { field: 'meter', oneOf: ['M1'] }]), // prettier-ignore
    );
    expect(counted(some)).toBeLessThan(counted(whole));
  });

  test('live readings are listed once for each number, and counted within the band as they are judged', async () => {
    const { live } = await pageOf(sample, { family: 'HERON-48' });
    for (const { check, received, returned, limits } of live) {
      for (const { count, values, within } of [received, returned]) {
        expect([...values]).toEqual([...new Set(values)].sort((a, b) => a - b));
        expect(values.length).toBeLessThanOrEqual(count);
        expect(within === undefined).toBe(limits === undefined);
      }
      if (limits === undefined) continue;
      const { readings } = await ask(sample, 'count', {
        filters: [
          { field: 'family', oneOf: ['HERON-48'] },
          { field: 'point', oneOf: [check.point] },
          { field: 'stage', oneOf: [check.stage] },
          { field: 'mode', oneOf: [check.mode] },
          { field: 'reading', from: limits.low, to: limits.high },
        ],
        sort: [],
      });
      expect(received.within! + returned.within!, check.point).toBe(readings);
    }
  });

  test('all other families are seen through the same filters, where a part was measured', async () => {
    const { standingOut } = await pageOf(sample, { family: 'HERON-48', bench: 'door' });
    const lines = await ask(sample, 'repairs');
    const others = lines.filter(({ repair }) => repair.bench === 'door' && repair.family !== 'HERON-48');
    const stories = await Promise.all(others.map(({ repair }) => ask(sample, 'repair', repair.id)));
    const measured = stories.filter((story) => story?.parts.some(({ finding }) => finding !== 'not measured'));
    expect(standingOut?.[0]?.elsewhere.repairs).toBe(measured.length);
    expect(measured.length).toBeLessThan(others.length);
  });

  test('what nothing fits is zero repairs, with nothing said of them', async () => {
    const page = await pageOf(sample, { family: 'HERON-48', from: Date.UTC(2030, 0, 1) });
    expect(page).toMatchObject({ repairs: 0, pairs: [], signatures: [], overTime: [], inCircuit: [], kitCurve: [] });
    expect([page.probing, page.kit, page.stock, page.standingOut, page.holding.all]).toEqual(
      new Array(5).fill(undefined),
    );
  });

  test('a family that nothing names has no page', async () => {
    expect(await ask(sample, 'familyPage', { ...asked, family: 'HERRON-48' })).toBeUndefined();
  });
});

describe('repairsWhere(query)', () => {
  const chosen = { family: 'HERON-48', bench: 'window' } as const;
  const count = async (query: RepairsQuery): Promise<number> =>
    (await ask(sample, 'repairsWhere', { ...chosen, ...query })).length;

  test('names as many repairs as each mark counts', async () => {
    const page = await pageOf(sample, { ...chosen });
    expect(await count({})).toBe(page.repairs);
    for (const { part, failed, suspected, replaced, replacedGood } of page.failures) {
      expect(await count({ failed: [part] }), part).toBe(failed);
      expect(await count({ suspected: [part] }), part).toBe(suspected);
      expect(await count({ replaced: [part] }), part).toBe(replaced);
      expect(await count({ replacedGood: [part] }), part).toBe(replacedGood);
    }
    for (const { part, readBad } of page.inCircuit) expect(await count({ readBad: [part] }), part).toBe(readBad);
    for (const { parts, together } of page.pairs) expect(await count({ failed: parts })).toBe(together);
    for (const { parts, count: seen } of page.signatures) expect(await count({ failed: parts })).toBe(seen);
    for (const { complaint, likely } of page.complaints.rows) {
      for (const { part, count: seen } of likely) expect(await count({ complaint, failed: [part] })).toBe(seen);
    }
    for (const { partClass, here } of page.standingOut ?? []) {
      expect(await count({ failedClass: partClass })).toBe(here.count);
    }
    for (const { parts, covered, repairs } of page.kitCurve)
      expect(await count({ beyondKit: parts })).toBe(repairs - covered);
    const { parts, leftOut } = page.kit!;
    expect(await ask(sample, 'repairsWhere', { ...chosen, beyondKit: parts })).toEqual(leftOut);
    const [followed] = page.overTime;
    for (const { week, failed } of followed!.weeks) {
      const days = { from: week, to: week + 7 * 86_400_000 - 1 };
      expect(await count({ ...days, failed: [followed!.part] })).toBe(failed);
    }
    expect(await count({ cameBack: true })).toBe(page.holding.all?.comebacks);
  });

  test('looks over all families where none is named, and finds none of an unknown one', async () => {
    const all = await ask(sample, 'repairsWhere', { outcome: 'comeback' });
    const lines = await ask(sample, 'repairs');
    expect(all.length).toBe(lines.filter(({ repair }) => repair.outcome === 'comeback').length);
    expect(await ask(sample, 'repairsWhere', { family: 'HERRON-48' })).toEqual([]);
  });
});

describe('familiesBeside(query, other)', () => {
  test('says of each family what its own page says', async () => {
    const query = { ...asked, family: 'HERON-48', bench: 'window' };
    const both = await ask(sample, 'familiesBeside', query, 'CURLEW-60');
    for (const side of both!.families) {
      const page = await pageOf(sample, { ...query, family: side.family });
      expect(side).toEqual({
        family: page.family,
        repairs: page.repairs,
        failures: page.failures,
        holding: page.holding.all,
        pays: page.pays,
      });
    }
    expect(both!.classes?.[0]?.elsewhere.repairs).toBe(both!.families[1].repairs);
  });

  test('is undefined where either is not known', async () => {
    expect(await ask(sample, 'familiesBeside', { ...asked, family: 'HERON-48' }, 'HERRON-48')).toBeUndefined();
  });
});

describe('a long count', () => {
  test('is stopped by its signal', async () => {
    const stop = new AbortController();
    stop.abort(new Error('Enough.'));
    const slow = await sampleBench();
    let time = 0;
    const clock = vi.spyOn(performance, 'now').mockImplementation(() => (time += 30));
    const page = slow.familyPage({ signal: stop.signal, report: () => undefined }, { ...asked, family: 'HERON-48' });
    await expect(page).rejects.toThrow('Enough.');
    clock.mockRestore();
  });

  test('tells how far it is once it has taken half a second, up to all', async () => {
    const told: WorkProgress[] = [];
    let time = 0;
    const clock = vi.spyOn(performance, 'now').mockImplementation(() => (time += 100));
    const report = (progress: WorkProgress): void => void told.push(progress);
    await sample.familyPage({ signal: context.signal, report }, { ...asked, family: 'HERON-48' });
    clock.mockRestore();
    expect(told[0]!.done).toBeGreaterThan(1);
    expect(told.map(({ done }) => done)).toEqual([...told.map(({ done }) => done)].sort((a, b) => a - b));
    expect(told.at(-1)).toEqual({ done: told[0]!.total, total: told[0]!.total });
  });
});

test('prices and the fee are those of the bench, unless the question gives others', async () => {
  const bench = await sampleBench();
  const { kitCurve } = await pageOf(bench, { family: 'HERON-48' });
  const parts = kitCurve.at(-1)!.parts;
  const prices = parts.map((part) => ({ family: 'HERON-48', part, price: 2 }));
  await ask(bench, 'changeSettings', { prices: [...prices, { family: 'PLOVER-32', part: 'Q1', price: 9 }], fee: 40 });
  const kept = await pageOf(bench, { family: 'HERON-48' });
  expect(kept.kit?.price).toBe(2 * kept.kit!.parts.length);
  expect([new Map(kept.prices).get('Q1'), kept.fee]).toEqual([2, 40]);
  const asked = await pageOf(bench, { family: 'HERON-48', prices: [['Q1', 5]], fee: 30 });
  expect([new Map(asked.prices).get('Q1'), new Map(asked.prices).get('F1'), asked.fee]).toEqual([5, 2, 30]);
});

test('a board so far narrows what to probe first', async () => {
  const plain = await pageOf(sample, { family: 'HERON-48' });
  const { part } = plain.failures[0]!;
  const narrowed = await pageOf(sample, { family: 'HERON-48', soFar: { cleared: [part] } });
  expect(plain.probing?.steps.map(({ found }) => found).at(-1)).toBeCloseTo(1, 9);
  expect(narrowed.probing?.repairs).toBeLessThan(plain.probing?.repairs ?? 0);
});

test('prices make the cheapest kit, once each part has one', async () => {
  const { kitCurve } = await pageOf(sample, { family: 'HERON-48' });
  const prices = kitCurve.at(-1)!.parts.map((part, at) => [part, at + 1] as const);
  expect((await pageOf(sample, { family: 'HERON-48', prices: prices.slice(1) })).kit).toBeUndefined();
  const { kit, pays } = await pageOf(sample, { family: 'HERON-48', prices, fee: 45 });
  const costs = new Map(prices);
  expect(kit?.price).toBe(sum(kit!.parts.map((part) => costs.get(part)!)));
  expect(pays.left?.mean).toBeLessThan(45);
});

const READINGS = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const REPAIRS = 'repair,family,complaint,received,returned,outcome,parts replaced,comeback of';
const csv = (name: string, header: string, rows: readonly string[]): File =>
  new File([[header, ...rows, ''].join('\n')], name);

async function benchOf(readings: readonly string[], repairs: readonly string[]): Promise<BenchHandlers> {
  const bench = createBench();
  const files = [
    ...(repairs.length === 0 ? [] : [csv('repairs.csv', REPAIRS, repairs)]),
    ...(readings.length === 0 ? [] : [csv('log.csv', READINGS, readings)]),
  ];
  const { refused } = await ask(bench, 'bringIn', files);
  expect(refused).toEqual([]);
  return bench;
}

const READING = '2026-04-01T09:00:00,T-0501,TEAL-20,12V main,live,DC volts,board,12.02,V,M1';

describe('bad input', () => {
  test('a repair without readings counts as a repair that proves nothing', async () => {
    const bench = await benchOf([], ['T-0501,TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,']);
    const page = await pageOf(bench, { family: 'TEAL-20' });
    expect(page.repairs).toBe(1);
    expect(page.failures).toMatchObject([{ part: 'Q1', failed: 0, replaced: 1, replacedGood: 0 }]);
    expect(page.holding.all).toMatchObject({ repairs: 1, comebacks: 0, steps: [], median: undefined });
    expect(page.pays).toMatchObject({ minutes: undefined, returned: 1, cameBack: 0 });
  });

  test('readings without a repair on record count, and are left out of whether repairs hold', async () => {
    const page = await pageOf(await benchOf([READING], []), { family: 'TEAL-20' });
    expect(page.repairs).toBe(1);
    expect(page.complaints.withoutComplaint).toBe(1);
    expect(page.holding).toMatchObject({ all: undefined, leftOut: { 'no record': 1 } });
  });

  test('a part that the family does not know is counted under its own name', async () => {
    const bench = await benchOf([READING], ['T-0501,TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q99,']);
    const { failures, stock } = await pageOf(bench, { family: 'TEAL-20' });
    expect(failures.map(({ part, replaced }) => [part, replaced])).toEqual([['Q99', 1]]);
    expect(stock).toBeUndefined();
  });

  test('a comeback dated before its return is left out, and said', async () => {
    const bench = await benchOf(
      [],
      [
        'T-0501,TEAL-20,flicker,2026-04-01,2026-04-20,returned working,,',
        'T-0502,TEAL-20,flicker,2026-04-10,2026-04-21,returned working,,T-0501',
      ],
    );
    const { holding } = await pageOf(bench, { family: 'TEAL-20', watched: Date.UTC(2026, 4, 1) });
    expect(holding.leftOut).toMatchObject({ 'comeback before its return': 1 });
    expect(holding.all).toMatchObject({ repairs: 1, comebacks: 0 });
  });

  test('boards of which none came back make no curve, and no test', async () => {
    const rows = Array.from(
      { length: 12 },
      (_, at) => `T-06${String(at).padStart(2, '0')},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`,
    );
    const { holding, pays } = await pageOf(await benchOf([], rows), {
      family: 'TEAL-20',
      watched: Date.UTC(2026, 4, 1),
    });
    expect(holding.all).toMatchObject({ repairs: 12, comebacks: 0, steps: [] });
    expect([holding.renewalTest, holding.othersTest]).toEqual([undefined, undefined]);
    expect(pays.comebackShare?.upper).toBeLessThan(0.3);
  });

  test('one mistyped date changes neither the day up to which boards were watched nor the weeks', async () => {
    const rows = Array.from({ length: 70 }, (_, at) => {
      const date = new Date(Date.UTC(2026, 0, 5 + at)).toISOString().slice(0, 10);
      return `T-06${String(at).padStart(2, '0')},TEAL-20,flicker,${date},${date},returned working,Q1,`;
    });
    const wrong = 'T-0699,TEAL-20,flicker,2062-03-01,2062-03-02,returned working,Q1,';
    const query = { family: 'TEAL-20', kitShare: 0.8, stockWeeks: 4, stockEnough: 0.95 };
    const right = await ask(await benchOf([], rows), 'familyPage', query);
    const page = await ask(await benchOf([], [...rows, wrong]), 'familyPage', query);
    expect(page?.watched).toBe(right?.watched);
    expect(page?.misdated).toEqual(['T-0699']);
    expect(page?.stock).toEqual(right?.stock);
    expect(page?.holding.leftOut).toMatchObject({ 'returned after that day': 1 });
  });

  test('repairs without any date are followed nowhere', async () => {
    const page = await pageOf(await benchOf([], ['T-0501,TEAL-20,flicker,,,open,,']), { family: 'TEAL-20' });
    expect(page).toMatchObject({ repairs: 1, overTime: [], holding: { all: undefined } });
  });
});

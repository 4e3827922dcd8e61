import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, test } from 'vitest';
import type { BenchCalls, BenchHandlers, CallContext, CallName } from '../../src/worker/contract/calls.ts';
import type { FamilyPage, FamilyQuery } from '../../src/worker/contract/families.ts';
import { createBench } from '../../src/worker/bench/bench.ts';

const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

async function ask<Name extends CallName>(
  bench: BenchHandlers,
  name: Name,
  ...args: Parameters<BenchCalls[Name]>
): Promise<ReturnType<BenchCalls[Name]>> {
  return bench[name](context, ...args);
}

const FILES = [
  'repairs.csv',
  'bands.csv',
  'shifts-2026-01-comma.csv',
  'shifts-2026-02-semicolon.csv',
  'shifts-2026-03-tab.tsv',
];
const asked: Omit<FamilyQuery, 'family'> = {
  today: Date.UTC(2026, 3, 15),
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

let sample: BenchHandlers;
beforeAll(async () => {
  sample = createBench();
  const files = FILES.map(
    (name) => new File([readFileSync(new URL(`../../sample-logs/${name}`, import.meta.url))], name),
  );
  await ask(sample, 'bringIn', files);
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
    for (const { part, failed, suspected } of failures) {
      const rate = masked.parts.find((one) => one.part === part);
      expect(rate?.measured, part).toBe(failed);
      expect(rate?.inferred, part).toBeLessThanOrEqual(suspected + 1e-9);
      const told = complaints.rows.flatMap(({ likely }) => likely).filter((one) => one.part === part);
      expect(sum(told.map(({ count }) => count)), part).toBe(failed);
      for (const pair of pairs) if (pair.parts[0] === part) expect(pair.first).toBe(failed);
    }
  });

  test('covers by its kit what it says, and leaves the rest out by name', async () => {
    const { kit, kitCurve } = await pageOf(sample, { family });
    for (const one of [...kitCurve, ...(kit === undefined ? [] : [kit])]) {
      expect(one.covered + one.leftOut.length).toBe(one.repairs);
    }
    if (kit !== undefined) expect(kit.covered).toBeGreaterThanOrEqual(0.8 * kit.repairs);
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
    const { holding } = await pageOf(bench, { family: 'TEAL-20', today: Date.UTC(2026, 4, 1) });
    expect(holding.leftOut).toMatchObject({ 'comeback before its return': 1 });
    expect(holding.all).toMatchObject({ repairs: 1, comebacks: 0 });
  });

  test('boards of which none came back make no curve, and no test', async () => {
    const rows = Array.from(
      { length: 12 },
      (_, at) => `T-06${String(at).padStart(2, '0')},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`,
    );
    const { holding, pays } = await pageOf(await benchOf([], rows), { family: 'TEAL-20', today: Date.UTC(2026, 4, 1) });
    expect(holding.all).toMatchObject({ repairs: 12, comebacks: 0, steps: [] });
    expect([holding.renewalTest, holding.othersTest]).toEqual([undefined, undefined]);
    expect(pays.comebackShare?.upper).toBeLessThan(0.3);
  });

  test('repairs without any date are followed nowhere', async () => {
    const page = await pageOf(await benchOf([], ['T-0501,TEAL-20,flicker,,,open,,']), { family: 'TEAL-20' });
    expect(page).toMatchObject({ repairs: 1, overTime: [], holding: { all: undefined } });
  });
});

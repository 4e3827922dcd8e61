import { afterAll, describe, expect, test, vi } from 'vitest';
import { NO_SETTINGS } from '../../src/domain/bench-settings.ts';
import { asking } from '../support/asking.ts';

const goodRule = { heldDays: 90, withoutFault: false, newParts: true };

// Other tests of the same process have loaded these rooms already, so that they are loaded anew with the judging watched.
vi.resetModules();
vi.doMock('../../src/worker/bench/bench-data.ts', async (original) => {
  const whole = await original<typeof import('../../src/worker/bench/bench-data.ts')>();
  return { ...whole, judgeBench: vi.fn(whole.judgeBench) };
});
const { judgeBench } = await import('../../src/worker/bench/bench-data.ts');
const { createBench } = await import('../../src/worker/bench/bench.ts');

afterAll(() => {
  vi.doUnmock('../../src/worker/bench/bench-data.ts');
  vi.resetModules();
});

describe('settings', () => {
  test('that change judge nothing anew, as meters that change do', async () => {
    const ask = asking(createBench());
    const before = vi.mocked(judgeBench).mock.calls.length;
    await ask('changeSettings', { prices: [{ family: 'HERON-48', part: 'Q1', price: 1.2 }], fee: 45 });
    await ask('undo');
    expect(vi.mocked(judgeBench).mock.calls.length).toBe(before);
    await ask('setMeters', [{ name: 'M1', accuracies: [] }]);
    expect(vi.mocked(judgeBench).mock.calls.length).toBe(before + 1);
  });

  test('are none at first, come back as they were set, and are taken back by undo', async () => {
    const ask = asking(createBench());
    expect(await ask('settings')).toEqual(NO_SETTINGS);
    const settings = {
      prices: [{ family: 'HERON-48', part: 'Q1', price: 1.2 }],
      fee: 45,
      technician: 'A. Tern',
      goodRule,
    };
    await ask('changeSettings', settings);
    expect(await ask('settings')).toEqual(settings);
    await ask('undo');
    expect(await ask('settings')).toEqual(NO_SETTINGS);
    await ask('redo');
    expect(await ask('settings')).toEqual(settings);
  });

  const price = { family: 'HERON-48', part: 'Q1', price: 1 };
  test.each([
    ['a price below nothing', { prices: [{ ...price, price: -1 }] }, 'at least 0'],
    ['a price that is no number', { prices: [{ ...price, price: NaN }] }, 'at least 0'],
    ['a price of nothing', { prices: [{ ...price, part: ' ' }] }, 'the family and the part'],
    ['an endless fee', { prices: [], fee: Infinity }, 'fee'],
    ['a rule with days below nothing', { prices: [], goodRule: { ...goodRule, heldDays: -1 } }, 'whole number'],
    ['a rule with half a day', { prices: [], goodRule: { ...goodRule, heldDays: 0.5 } }, 'whole number'],
    ['a technician without a name', { prices: [], technician: ' ' }, 'name'],
  ])('with %s are refused with a sentence, and the present ones stay', async (_, settings, reason) => {
    const ask = asking(createBench());
    await ask('changeSettings', { prices: [price] });
    await expect(ask('changeSettings', settings)).rejects.toThrow(reason);
    expect(await ask('settings')).toEqual({ prices: [price] });
  });
});

describe('views', () => {
  test('stand in order of their names, one for each name', async () => {
    const ask = asking(createBench());
    await ask('setView', { name: 'T-10', address: '#/readings?repair=T-10' });
    await ask('setView', { name: 'T-9', address: '#/readings?repair=T-9' });
    await ask('setView', { name: '__proto__', address: '#/readings' });
    const views = await ask('setView', { name: 'T-10', address: '#/readings?sort=-time' });
    expect(views.map(({ name }) => name)).toEqual(['__proto__', 'T-9', 'T-10']);
    expect(views[2]!.address).toBe('#/readings?sort=-time');
    expect(await ask('removeView', 'T-9')).toHaveLength(2);
    expect(await ask('removeView', 'no such view')).toHaveLength(2);
  });

  test.each([
    ['without a name', { name: ' ', address: '#/readings' }],
    ['of another place', { name: 'x', address: '#/repairs/T-0001' }],
    ['of another place that begins alike', { name: 'x', address: '#/readingsX' }],
    ['that leads out of the page', { name: 'x', address: 'https://elsewhere.invalid/' }],
  ])('%s are refused with a sentence', async (_, view) => {
    await expect(asking(createBench())('setView', view)).rejects.toThrow(/\.$/);
  });
});

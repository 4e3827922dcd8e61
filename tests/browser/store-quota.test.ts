import { afterEach, expect, test } from 'vitest';
import { cdp } from 'vitest/browser';
import type { Keeper } from '../../src/store/keeper.ts';
import type { NewImport } from '../../src/store/kept.ts';
import { contentOf, importOf, state } from '../store/fixtures.ts';
import { foundIn, removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

/** Sets how much the browser gives this origin; without a size it gives what it usually does. */
async function setQuota(quotaSize?: number): Promise<void> {
  const origin = location.origin;
  await cdp().send('Storage.overrideQuotaForOrigin', quotaSize === undefined ? { origin } : { origin, quotaSize });
}

afterEach(async () => {
  await setQuota();
  await removeScratch();
});

/** Brings files in until one is refused. @returns those that were kept, and the refusal */
async function fill(keeper: Keeper): Promise<{ kept: NewImport[]; refused: NewImport; cause: unknown }> {
  const kept: NewImport[] = [];
  // The browser lets its limit be overrun for a while, so it takes some files more than the limit holds.
  for (let seed = 1; seed <= 40; seed += 1) {
    const one = await importOf(seed, 150_000);
    try {
      await keeper.addImport(one);
      kept.push(one);
    } catch (cause) {
      return { kept, refused: one, cause };
    }
  }
  throw new Error('The browser gave more than forty files their room.');
}

test.each([1, 2, 5, 10, 20])(
  'a browser that gives %i MB keeps each import whole or not at all, and says so',
  async (size) => {
    const name = scratchName();
    // The browser remembers for a while how much room there was; an emptied storage makes it ask again.
    await cdp().send('Storage.clearDataForOrigin', { origin: location.origin, storageTypes: 'indexeddb' });
    await setQuota(size * 1_000_000);
    const keeper = await scratchKeeper(name, { lotBytes: 1_000_000 });
    await keeper.load();
    await keeper.saveState(state);
    const { kept, refused, cause } = await fill(keeper);
    expect(cause).toMatchObject({
      fault: 'full',
      message: expect.stringMatching(/^The browser gives this page no more room/) as string,
    });
    await setQuota();
    const found = await foundIn(name);
    expect([found.imports, found.state]).toEqual([kept.map(contentOf), state]);
    expect(await keeper.addImport(refused)).toBe('added');
    expect((await foundIn(name)).imports).toEqual([...kept, refused].map(contentOf));
  },
  60_000,
);

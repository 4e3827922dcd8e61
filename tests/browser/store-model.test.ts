import fc from '../support/fast-check.ts';
import { afterEach, expect, test } from 'vitest';
import { withParts } from '../../src/store/journal.ts';
import { EMPTY_STATE, type BenchState, type NewImport } from '../../src/store/kept.ts';
import type { Keeper } from '../../src/store/keeper.ts';
import { bandOf, contentOf, importOf, repairOf } from '../store/fixtures.ts';
import { removeScratch, scratchKeeper, scratchName } from '../store/scratch-keeper.ts';

afterEach(removeScratch);

/** What a bench must hold. */
interface Bench {
  readonly imports: ReadonlyMap<string, NewImport>;
  readonly state: BenchState;
}

/** What must be there: the bench, the one that an undo brings back, and the one in the backup. */
interface Model {
  bench: Bench;
  earlier: Bench | undefined;
  backup: Bench | undefined;
}

/** The same database as two tabs see it; commands go to either. */
interface Real {
  readonly name: string;
  tabs: Keeper[];
  backup: Blob | undefined;
}

type Step = fc.AsyncCommand<Model, Real>;

const EMPTY: Bench = { imports: new Map(), state: EMPTY_STATE };
const options = { lotBytes: 500 };
const imports = await Promise.all([0, 1, 2, 3].map((seed) => importOf(seed, 5 * seed)));

function step(name: string, run: (model: Model, real: Real) => Promise<void>, check?: (model: Model) => boolean): Step {
  return {
    check: (model) => check?.(model) ?? true,
    run: async (model, real) => {
      await run(model, real);
      await expectSame(model, real);
    },
    toString: () => name,
  };
}

/** Both tabs read anew, as they do when told of a change, and must find what the model holds. */
async function expectSame({ bench }: Model, { tabs }: Real): Promise<void> {
  for (const tab of tabs) {
    const loaded = await tab.load();
    expect(loaded.faults).toEqual([]);
    expect(loaded.bench.imports.map(contentOf)).toEqual([...bench.imports.values()].map(contentOf));
    expect(withParts(loaded.bench, {})).toEqual(bench.state);
  }
}

const tab = fc.nat(1);
const steps = [
  fc.tuple(tab, fc.nat(3)).map(([at, which]) =>
    step(`import ${which} in tab ${at}`, async (model, real) => {
      const one = imports[which]!;
      const known = model.bench.imports.has(one.record.hash);
      expect(await real.tabs[at]!.addImport(one)).toBe(known ? 'known' : 'added');
      if (!known) model.bench = { ...model.bench, imports: new Map([...model.bench.imports, [one.record.hash, one]]) };
    }),
  ),
  fc.tuple(tab, fc.nat(3)).map(([at, which]) =>
    step(`cancel import ${which} in tab ${at}`, async (model, real) => {
      if (model.bench.imports.has(imports[which]!.record.hash)) return;
      const cancel = new AbortController();
      const report = (): void => { cancel.abort(); }; // prettier-ignore
      const adding = real.tabs[at]!.addImport(imports[which]!, { bands: [] }, { signal: cancel.signal, report });
      await expect(adding).rejects.toMatchObject({ fault: 'cancelled' });
    }),
  ),
  fc.tuple(tab, fc.nat(3)).map(([at, which]) =>
    step(`remove import ${which} in tab ${at}`, async (model, real) => {
      const { hash } = imports[which]!.record;
      await real.tabs[at]!.removeImport(hash);
      model.bench = { ...model.bench, imports: new Map([...model.bench.imports].filter(([own]) => own !== hash)) };
    }),
  ),
  fc
    .tuple(tab, fc.constantFrom('bulk', '12V main', '24V main'), fc.integer({ min: 1, max: 9 }))
    .map(([at, point, percent]) =>
      step(`set the band of ${point} to ${percent} % in tab ${at}`, async (model, real) => {
        const { bands, earlierBands } = model.bench.state;
        const place = bands.findIndex((band) => band.point === point);
        const band = bandOf(point, percent);
        const next = place < 0 ? [...bands, band] : bands.with(place, band);
        const history = place < 0 ? earlierBands : [...earlierBands, bands[place]!];
        const state = withParts(model.bench.state, { bands: next, earlierBands: history });
        await real.tabs[at]!.saveState(state);
        model.bench = { ...model.bench, state };
      }),
    ),
  fc.tuple(tab, fc.uniqueArray(fc.constantFrom<string[]>('T-1', 'T-2', '__proto__'))).map(([at, ids]) =>
    step(`keep repairs ${ids.join()} in tab ${at}`, async (model, real) => {
      const kept = model.bench.state.repairs.filter(({ id }) => ids.includes(id));
      const known = new Set<string>(kept.map(({ id }) => id));
      const repairs = [...kept, ...ids.filter((id) => !known.has(id)).map((id) => repairOf(id))];
      await real.tabs[at]!.saveState({ repairs });
      model.bench = { ...model.bench, state: withParts(model.bench.state, { repairs }) };
    }),
  ),
  fc.tuple(tab, fc.nat(9)).map(([at, fee]) =>
    step(`set the fee to ${fee} in tab ${at}`, async (model, real) => {
      const state = withParts(model.bench.state, { settings: [{ prices: [], fee }] });
      await real.tabs[at]!.saveState(state);
      model.bench = { ...model.bench, state };
    }),
  ),
  fc.tuple(tab, fc.uniqueArray(fc.constantFrom<string[]>('worst first', '__proto__'))).map(([at, names]) =>
    step(`keep views ${names.join()} in tab ${at}`, async (model, real) => {
      const views = names.map((name) => ({ name, address: `#/readings?repair=${name}` }));
      const kept = model.bench.state.views.filter((view) => names.includes(view.name));
      const next = [...kept, ...views.filter(({ name }) => !kept.some((view) => view.name === name))];
      await real.tabs[at]!.saveState({ views: next });
      model.bench = { ...model.bench, state: withParts(model.bench.state, { views: next }) };
    }),
  ),
  tab.map((at) =>
    step(`clear in tab ${at}`, async (model, real) => {
      await real.tabs[at]!.clear();
      [model.earlier, model.bench] = [model.bench, EMPTY];
    }),
  ),
  tab.map((at) =>
    step(`undo in tab ${at}`, async (model, real) => {
      expect(await real.tabs[at]!.undoSwitch()).toBe(model.earlier !== undefined);
      if (model.earlier) [model.earlier, model.bench] = [model.bench, model.earlier];
    }),
  ),
  tab.map((at) =>
    step(`back up in tab ${at}`, async (model, real) => {
      const { file, seal } = await real.tabs[at]!.backUp();
      await real.tabs[at]!.confirmBackup(file, seal);
      real.backup = file;
      model.backup = model.bench;
    }),
  ),
  tab.map((at) =>
    step(
      `restore in tab ${at}`,
      async (model, real) => {
        await real.tabs[at]!.restore(real.backup!);
        [model.earlier, model.bench] = [model.bench, model.backup!];
      },
      ({ backup }) => backup !== undefined,
    ),
  ),
  fc.constant(
    step('reload both tabs', async (_model, real) => {
      for (const one of real.tabs) await one.close();
      real.tabs = [await scratchKeeper(real.name, options), await scratchKeeper(real.name, options)];
    }),
  ),
];

test('whatever two tabs do in turn, both find what a plain model holds', async () => {
  await fc.assert(
    fc.asyncProperty(fc.commands(steps, { maxCommands: 30, size: 'max' }), async (commands) => {
      const name = scratchName();
      const tabs = [await scratchKeeper(name, options), await scratchKeeper(name, options)];
      for (const one of tabs) await one.load();
      await fc.asyncModelRun(
        () => ({
          model: { bench: EMPTY, earlier: undefined, backup: undefined } satisfies Model,
          real: { name, tabs, backup: undefined } satisfies Real,
        }),
        commands,
      );
      await removeScratch();
    }),
    { numRuns: 200 },
  );
});

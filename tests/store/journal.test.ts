import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import type { BenchSettings } from '../../src/domain/bench-settings.ts';
import { applyChanges, changesBetween, firstOutdated, reverseChanges, withParts } from '../../src/store/journal.ts';
import { EMPTY_STATE, type BenchState } from '../../src/store/kept.ts';
import { bandOf, repairOf, state } from './fixtures.ts';

const bands = fc
  .uniqueArray(fc.constantFrom('5V standby', '12V main', '24V main', 'bulk'))
  .chain((points) => fc.tuple(...points.map((point) => fc.integer({ min: 1, max: 9 }).map((percent) => bandOf(point, percent))))); // prettier-ignore
const repairs = fc
  .uniqueArray(fc.constantFrom('T-1', 'T-2', '__proto__', 'constructor'))
  .map((ids) => ids.map(repairOf));
const history = fc.array(
  fc.integer({ min: 1, max: 3 }).map((percent) => bandOf('bulk', percent)),
  { maxLength: 4 },
);
const anyState: fc.Arbitrary<BenchState> = fc
  .tuple(bands, repairs, history)
  .map(([own, known, earlierBands]) => withParts(EMPTY_STATE, { bands: own, repairs: known, earlierBands }));

/** A state whose order does not count, but for the history. */
const unordered = ({ earlierBands, ...rest }: BenchState): unknown => ({
  earlierBands,
  rest: Object.entries(rest).map(([part, items]) => [part, items.map((item) => JSON.stringify(item)).sort()]),
});

describe('changes', () => {
  test('lead from any state to any other', () => {
    fc.assert(
      fc.property(anyState, anyState, (before, after) => {
        expect(unordered(applyChanges(before, changesBetween(before, after)))).toEqual(unordered(after));
      }),
    );
  });

  test('are taken back by their reverse', () => {
    fc.assert(
      fc.property(anyState, anyState, (before, after) => {
        const changes = changesBetween(before, after);
        expect(unordered(applyChanges(after, reverseChanges(changes)))).toEqual(unordered(before));
      }),
    );
  });

  test('say what was and what is', () => {
    const after = withParts(state, { bands: [bandOf('12V main', 3)] });
    expect(changesBetween(state, after)).toEqual([
      { part: 'bands', old: bandOf('24V main', 4) },
      { part: 'bands', old: bandOf('12V main', 5), new: bandOf('12V main', 3) },
    ]);
  });

  test('of different settings in two tabs both stand, and one is taken back without the other', () => {
    const stated = (settings: BenchSettings) => withParts(EMPTY_STATE, { settings: [settings] });
    const before = stated({ prices: [], fee: 40 });
    const price = { family: 'HERON-48', part: 'Q1', price: 1.2 };
    const mine = changesBetween(before, stated({ prices: [price], fee: 40 }));
    const theirs = changesBetween(before, stated({ prices: [], fee: 45, technician: 'A. Tern' }));
    const both = applyChanges(applyChanges(before, theirs), mine);
    expect(both.settings).toEqual([{ prices: [price], fee: 45, technician: 'A. Tern' }]);
    expect(applyChanges(both, reverseChanges(theirs)).settings).toEqual([{ prices: [price], fee: 40 }]);
  });

  test('of an item that is neither as it was nor as it becomes are found out', () => {
    const at = (...percents: number[]) =>
      withParts(EMPTY_STATE, { bands: percents.map((percent) => bandOf('bulk', percent)) });
    const changes = changesBetween(at(5), at(4));
    expect(firstOutdated(at(5), changes)).toBeUndefined();
    expect(firstOutdated(at(4), changes)).toBeUndefined();
    expect(firstOutdated(at(3), changes)).toEqual(bandOf('bulk', 3));
    expect(firstOutdated(at(), changes)).toEqual(bandOf('bulk', 5));
    expect(firstOutdated(at(3), changesBetween(at(), at(5)))).toEqual(bandOf('bulk', 3));
  });

  test('of two tabs both stand', () => {
    const mine = changesBetween(state, withParts(state, { bands: [...state.bands, bandOf('bulk', 8)] }));
    const theirs = changesBetween(state, withParts(state, { bands: [bandOf('12V main', 1), bandOf('24V main', 4)] }));
    expect(applyChanges(applyChanges(state, theirs), mine).bands).toEqual([
      bandOf('12V main', 1),
      bandOf('24V main', 4),
      bandOf('bulk', 8),
    ]);
  });

  test('are none between equal states', () => {
    expect(changesBetween(state, structuredClone(state))).toEqual([]);
  });

  test('of many repairs at once are made in one pass', () => {
    const many = Array.from({ length: 20_000 }, (_none, index) => repairOf(`T-${index}`));
    const changes = changesBetween(EMPTY_STATE, withParts(EMPTY_STATE, { repairs: many }));
    expect(applyChanges(EMPTY_STATE, changes).repairs).toEqual(many);
  });
});

import fc from '../../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import {
  FIRST_LAYOUT,
  MAX_PINNED,
  movedBy,
  movedTo,
  readLayout,
  shownColumns,
  withPinned,
  withShown,
  withWidth,
  writeLayout,
  type ColumnLayout,
} from '../../../src/ui/grid/column-layout.ts';
import { GRID_COLUMNS } from '../../../src/ui/grid/grid-columns.ts';

const ids = GRID_COLUMNS.map(({ id }) => id);
const shownIds = (layout: ColumnLayout): readonly string[] => shownColumns(layout).map(({ id }) => id);

/** A layout as a person may come to it: any number of changes, one after the other. */
const layouts: fc.Arbitrary<ColumnLayout> = fc
  .array(
    fc.tuple(fc.constantFrom('show', 'hide', 'pin', 'free', 'widen', 'move', 'step'), fc.constantFrom(...ids), fc.constantFrom(...ids), fc.integer({ min: 0, max: 60 })),
    { maxLength: 25 },
  )
  .map((changes) =>
    changes.reduce<ColumnLayout>((layout, [change, id, other, width]) => {
      if (change === 'show' || change === 'hide') return withShown(layout, id, change === 'show');
      if (change === 'pin' || change === 'free') return withPinned(layout, id, change === 'pin');
      if (change === 'widen') return withWidth(layout, id, width);
      return change === 'move' ? movedTo(layout, id, other) : movedBy(layout, id, width % 2 === 0 ? 1 : -1);
    }, FIRST_LAYOUT),
  ); // prettier-ignore

describe('a layout of columns', () => {
  test('always holds each column once, shows one at least, pins few, and draws pinned ones first at their own widths', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        expect(layout.map(({ id }) => id).sort()).toEqual([...ids].sort());
        const shown = shownColumns(layout);
        expect(shown.length).toBeGreaterThan(0);
        const pins = shown.map(({ pinned }) => pinned);
        expect(pins).toEqual([...pins].sort((a, b) => Number(b) - Number(a)));
        expect(pins.filter(Boolean).length).toBeLessThanOrEqual(MAX_PINNED);
        for (const { pinned, share } of shown) if (pinned) expect(share).toBe(0);
      }),
      { numRuns: 300 },
    );
  });

  test('is read from an address as it was written there, as far as its columns are shown', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const read = readLayout(writeLayout(layout)) ?? FIRST_LAYOUT;
        expect(shownColumns(read)).toEqual(shownColumns(layout));
      }),
      { numRuns: 300 },
    );
  });

  test('is not written where it is the first one, and what an address says wrongly is passed over', () => {
    expect(writeLayout(FIRST_LAYOUT)).toBe('');
    expect(readLayout('')).toBeUndefined();
    expect(readLayout('colour shape__ 12')).toBeUndefined();
    expect(shownIds(readLayout('verdict* colour point_9000 point time') ?? [])).toEqual(['verdict', 'point', 'time']);
  });

  test('moves a column by one among those that are shown, but not out of the pinned ones', () => {
    const layout = withPinned(withShown(FIRST_LAYOUT, 'repair', false), 'verdict', true);
    expect(shownIds(layout).slice(0, 3)).toEqual(['verdict', 'time', 'family']);
    expect(shownIds(movedBy(layout, 'time', 1)).slice(0, 3)).toEqual(['verdict', 'family', 'time']);
    expect(movedBy(layout, 'time', -1)).toBe(layout);
    expect(movedBy(layout, 'verdict', 1)).toBe(layout);
  });

  test('pins a column that is dropped on a pinned one, and lets it go where it is dropped behind them', () => {
    const pinned = withPinned(FIRST_LAYOUT, 'time', true);
    const dropped = movedTo(pinned, 'verdict', 'time');
    expect(shownColumns(dropped).slice(0, 2).map(({ id, pinned: isPinned }) => [id, isPinned])).toEqual([['verdict', true], ['time', true]]); // prettier-ignore
    expect(shownColumns(movedTo(dropped, 'time', 'point')).filter(({ pinned: isPinned }) => isPinned).map(({ id }) => id)).toEqual(['verdict']); // prettier-ignore
  });

  test('keeps its last column', () => {
    const one = ids.slice(1).reduce((layout, id) => withShown(layout, id, false), FIRST_LAYOUT);
    expect(shownIds(withShown(one, 'time', false))).toEqual(['time']);
  });
});

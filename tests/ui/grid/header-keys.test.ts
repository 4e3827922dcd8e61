import { expect, test } from 'vitest';
import { FIRST_LAYOUT, shownColumns, withPinned, withShown } from '../../../src/ui/grid/column-layout.ts';
import { GRID_COLUMNS } from '../../../src/ui/grid/grid-columns.ts';
import { layoutByKey } from '../../../src/ui/grid/header-keys.ts';

const key = (name: string, ...held: ('ctrl' | 'shift' | 'alt' | 'meta')[]) => ({
  key: name,
  ctrlKey: held.includes('ctrl'),
  shiftKey: held.includes('shift'),
  altKey: held.includes('alt'),
  metaKey: held.includes('meta'),
});

test.each([
  ['Ctrl and the right arrow', key('ArrowRight', 'ctrl'), 'repair is column 3 of 11.'],
  ['Cmd and the left arrow', key('ArrowLeft', 'meta'), 'repair is column 1 of 11.'],
  ['Shift and the right arrow', key('ArrowRight', 'shift'), 'repair is 4,75 letters wide.'],
  ['Shift and the left arrow', key('ArrowLeft', 'shift'), 'repair is 3,75 letters wide.'],
  ['P', key('p'), 'repair is pinned.'],
  ['Delete', key('Delete'), 'repair is hidden.'],
])('%s on a header changes its column and says what changed', (_name, event, said) => {
  const change = layoutByKey(FIRST_LAYOUT, 'repair', event, 4.25, ',');
  expect(change?.said).toBe(said);
  expect(change?.layout).not.toBe(FIRST_LAYOUT);
});

test('a pinned column is let go by the same key', () => {
  const pinned = withPinned(FIRST_LAYOUT, 'repair', true);
  expect(layoutByKey(pinned, 'repair', key('P'), 4.25, '.')).toEqual({
    layout: FIRST_LAYOUT,
    said: 'repair is not pinned.',
  });
});

test('what cannot be done changes nothing and is said', () => {
  const one = GRID_COLUMNS.slice(1).reduce((layout, { id }) => withShown(layout, id, false), FIRST_LAYOUT);
  expect(layoutByKey(one, 'time', key('Delete'), 9, '.')).toEqual({ layout: one, said: 'The last column stays.' });
  const full = shownColumns(FIRST_LAYOUT).slice(0, 4).reduce((layout, { id }) => withPinned(layout, id, true), FIRST_LAYOUT); // prettier-ignore
  expect(layoutByKey(full, 'verdict', key('p'), 9, '.')).toEqual({ layout: full, said: 'No more columns can be pinned.' }); // prettier-ignore
});

test.each([
  key('ArrowRight'),
  key('ArrowDown', 'ctrl'),
  key('p', 'ctrl'),
  key('ArrowLeft', 'alt', 'ctrl'),
  key('Delete', 'shift'),
])('a key that means nothing to a header is left to others', (event) => {
  expect(layoutByKey(FIRST_LAYOUT, 'time', event, 9, '.')).toBeUndefined();
});

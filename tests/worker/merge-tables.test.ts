import { expect, test } from 'vitest';
import type { Family } from '../../src/domain/family.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { mergedFamily, mergedMeter, mergedRepair } from '../../src/worker/bench/merge-tables.ts';

const HERON: Family = {
  name: 'HERON-48',
  boost: true,
  points: [
    { name: 'bulk', role: 'bulk' },
    { name: 'X1', role: 'backlight', rail: 'strip' },
  ],
  parts: [{ designator: 'Q1', nodes: ['D', 'S'] }],
};

test('a bands table of one row leaves the other points, parts, roles and the boost stage of a family', () => {
  const row = { name: 'HERON-48', points: [{ name: 'X1', role: 'part', part: 'X1' }], parts: [] } as const;
  expect(mergedFamily(HERON, row)).toEqual(HERON);
  const added = mergedFamily(HERON, { ...row, boost: false, points: [{ name: 'standby', role: 'standby' }] });
  expect(added).toEqual({ ...HERON, boost: false, points: [...HERON.points, { name: 'standby', role: 'standby' }] });
});

test('empty cells of a repairs table take nothing from a repair', () => {
  const known: Repair = { id: 'T-1', family: 'HERON-48', complaint: 'flicker', received: 1, returned: 2, outcome: 'returned working', replaced: ['F1'] }; // prettier-ignore
  const silent: Repair = { id: 'T-1', family: '', complaint: '', received: NaN, returned: NaN, outcome: 'open', replaced: ['Q1'] }; // prettier-ignore
  expect(mergedRepair(known, silent)).toEqual({ ...known, replaced: ['F1', 'Q1'] });
  expect(mergedRepair(undefined, silent)).toEqual(silent);
});

test('a meters table of one range leaves the others', () => {
  const volts = { mode: 'DC volts', upTo: 60, percent: 0.5, counts: 2 } as const;
  const known = { name: 'M1', accuracies: [volts, { ...volts, upTo: 600 }], overRangeMark: 'OL' };
  const brought = { name: 'M1', accuracies: [{ ...volts, percent: 0.8 }] };
  expect(mergedMeter(known, brought)).toEqual({
    ...known,
    accuracies: [
      { ...volts, percent: 0.8 },
      { ...volts, upTo: 600 },
    ],
  });
});

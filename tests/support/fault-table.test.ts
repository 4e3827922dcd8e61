import { expect, test } from 'vitest';
import { faultTable } from './fault-table.ts';

test('the table adds runs of one fault up, puts faults in order and says how many were lost', () => {
  const table = faultTable([
    { fault: 'F10 clock', runs: 4, survived: 4 },
    { fault: 'F2 tab closed', runs: 20, survived: 19 },
    { fault: 'F10 clock', runs: 8, survived: 8 },
  ]);
  expect(table.split('\n').map((line) => line.split(/ {2,}/))).toEqual([
    ['fault', 'runs', 'survived', 'lost'],
    ['F2 tab closed', '20', '19', '1'],
    ['F10 clock', '12', '12', '0'],
  ]);
});

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { METERS } from '../support/bench/scenario.ts';
import { expectReason, planOf, read } from './support.ts';

/** The invented logs of the demo; the traps in them are written in tests/support/bench. */
const folder = new URL('../../sample-logs/', import.meta.url);

test.each([
  ['shifts-2026-01-comma.csv', 'readings', [], { footer: 1, 'repeated header': 0, blank: 0 }],
  ['shifts-2026-02-semicolon.csv', 'readings', [], { footer: 0, 'repeated header': 1, blank: 1 }],
  ['shifts-2026-03-tab.tsv', 'readings', ['12..4 V', '4.7l V', '2026-02-30 10:15:00', '? V'], { footer: 0 }],
  ['repairs.csv', 'repairs', [], { footer: 0 }],
  ['bands.csv', 'bands', [], { footer: 0 }],
  ['meters.csv', 'meters', [], { footer: 0 }],
] as const)('%s is read as %s without a question, and only its traps are set aside', async (name, shape, traps, noDataKinds) => {
  const bytes = new Uint8Array(readFileSync(new URL(name, folder)));
  const plan = planOf(bytes, name);
  expect(plan).toMatchObject({ shape, questions: [] });
  const contents = await read(bytes, plan);
  expect(contents).toMatchObject({ setAsideRows: traps.length, noDataKinds });
  expect(contents.setAside.map(({ reason }) => /^“([^”]+)”/.exec(reason)?.[1])).toEqual(traps);
  contents.setAside.forEach(expectReason);
}); // prettier-ignore

test('the table of meters is read as the simulation states them, range by range', async () => {
  const bytes = new Uint8Array(readFileSync(new URL('meters.csv', folder)));
  expect(await read(bytes, planOf(bytes, 'meters.csv'))).toMatchObject({ shape: 'meters', meters: METERS });
});

import { afterAll, expect, test } from 'vitest';
import { bringIn } from './bring-in.ts';
import type { Outcome } from './expected.ts';
import { KNOWN_GAPS } from './known-gaps.ts';
import { LOGS } from './all-logs.ts';

const outcomes = new Map<string, Outcome>();

test('every log has a name of its own, and every known gap is one of them', () => {
  const names = LOGS.flatMap(({ logs }) => logs.map(({ name }) => name));
  expect(new Set(names).size).toBe(names.length);
  expect(Object.keys(KNOWN_GAPS).filter((name) => !names.includes(name))).toEqual([]);
});

for (const { theme, logs } of LOGS) {
  for (const log of logs) {
    test(`${theme}: ${log.name}`, async () => {
      const outcome = await bringIn(log);
      outcomes.set(log.name, outcome);
      const gap = KNOWN_GAPS[log.name];
      if (gap === undefined) expect(outcome.faults, outcome.faults.join('\n')).toEqual([]);
      else expect(outcome.faults, 'It comes out right: take it off the list of known gaps.').not.toEqual([]);
    });
  }
}

afterAll(() => {
  const lines = LOGS.map(({ theme, logs }) => summaryOf(theme, logs.flatMap(({ name }) => outcomes.get(name) ?? []))); // prettier-ignore
  console.info([...lines, summaryOf('all', [...outcomes.values()])].join('\n'));
});

function summaryOf(theme: string, some: readonly Outcome[]): string {
  const sum = (key: 'expected' | 'right' | 'setAside' | 'wrong' | 'questions'): number =>
    some.reduce((total, outcome) => total + outcome[key], 0);
  const held = some.filter(({ faults }) => faults.length === 0).length;
  return (
    `${theme}: ${held} of ${some.length} logs hold; of ${sum('expected')} readings ${sum('right')} right, ` +
    `${sum('setAside')} set aside though good, ${sum('wrong')} wrong, invented or lost; ${(sum('questions') / Math.max(1, some.length)).toFixed(1)} questions a log`
  );
}

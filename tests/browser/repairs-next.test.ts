import { describe, expect, test } from 'vitest';
import '../../src/ui/panels/repair-next.ts';
import type { WhatNext } from '../../src/ui/panels/repair-answers.ts';
import { all, rowsOf, show, textOf, violations } from './app-page.ts';
import { openRepairs } from './repairs-bench.ts';

const next: WhatNext = {
  kind: 'probe',
  sentence: 'Measure Q1 D→S next: it takes about 22 s.',
  inQuestion: [
    { point: 'Q1 D→S', parts: ['Q1'], chance: 0.606, seconds: 22 },
    { point: 'D5 A→K', parts: ['D5', 'D4'], chance: 0.04, seconds: 150 },
    { point: 'U1', parts: ['U1'], chance: 0.03 },
  ],
};

async function showNext(answer: WhatNext | undefined = next) {
  const { session } = await openRepairs({ whatNext: () => answer });
  return show('bt-repair-next', { session, repair: 'T-0131' });
}

describe('<bt-repair-next>', () => {
  test('renders', async () => {
    const place = await showNext();
    expect(textOf(place, 'p')).toBe('Measure Q1 D→S next: it takes about 22 s.');
    expect(rowsOf(place, 'table')).toEqual([
      ['Q1 D→S', 'Q1', '61 %', '22 s'],
      ['D5 A→K', 'D5, D4', '4 %', '2.5 min'],
      ['U1', 'U1', '3 %', ''],
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showNext())).toEqual([]);
  });
});

test('history that is too thin says so, without a table', async () => {
  const place = await showNext({ kind: 'too thin', sentence: 'Too few earlier repairs.', inQuestion: [] });
  expect(textOf(place, 'p')).toBe('Too few earlier repairs.');
  expect(all(place, 'table')).toEqual([]);
});

test('what is less likely, and that it is none of these, have their chances', async () => {
  const inQuestion = Array.from({ length: 9 }, (_, at) => ({ point: `R${at}`, parts: [`R${at}`], chance: 0.1 }));
  const place = await showNext({ ...next, inQuestion, noneOfThese: 0.1 });
  expect(rowsOf(place, 'table').slice(5)).toEqual([
    ['R5', 'R5', '10 %', ''],
    ['3 less likely checks', '30 %', ''],
    ['none of these: another fault, a bad joint, or none', '10 %', ''],
  ]);
});

test('how many repairs the chances rest on is said', async () => {
  const said = async (answer: WhatNext) => textOf(await showNext(answer), 'table + p.quiet');
  expect(await said({ ...next, restsOn: { repairs: 34, underComplaint: 12 } })).toBe(
    'A chance is that this check is the first to show the fault, in this order. They rest on 34 earlier repairs, those under this complaint above all (12); the fewer, the closer they stay to not knowing.',
  );
  expect(await said({ ...next, kind: 'lift', restsOn: { repairs: 5 } })).toBe(
    'A chance is that the part has failed; several may have. They rest on 5 earlier repairs; the fewer, the closer they stay to not knowing.',
  );
});

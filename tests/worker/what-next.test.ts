import { describe, expect, test } from 'vitest';
import type { Repair } from '../../src/domain/repair.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { nextOn } from '../../src/worker/bench/what-next.ts';
import type { BenchHandlers, CallContext } from '../../src/worker/contract/calls.ts';
import { failing, GOOD, SHORTED, times } from '../patterns/examined.ts';
import { sampleFile } from '../support/sample-file.ts';

const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

async function sampleBench(): Promise<BenchHandlers> {
  const bench = createBench();
  const names = ['repairs.csv', 'bands.csv', 'shifts-2026-01-comma.csv', 'shifts-2026-02-semicolon.csv', 'shifts-2026-03-tab.tsv']; // prettier-ignore
  await bench.bringIn(context, names.map(sampleFile));
  return bench;
}

const fresh: Repair = {
  id: 'T-0900',
  family: 'HERON-48',
  complaint: 'no standby light',
  received: NaN,
  returned: NaN,
  outcome: 'open',
  replaced: [],
};

describe('whatNext(repair)', () => {
  test('orders the checks of a board that nobody has measured, with chances that come to one', async () => {
    const bench = await sampleBench();
    await bench.setRepair(context, fresh);
    const next = await bench.whatNext(context, 'T-0900', '.');
    expect(next?.kind).toBe('probe');
    expect(next?.sentence).toContain(`Measure ${next!.inQuestion[0]!.point} next`);
    const told = next!.inQuestion.reduce((sum, { chance }) => sum + chance, 0);
    expect(told + next!.noneOfThese!).toBeCloseTo(1, 10);
    expect(next?.restsOn?.repairs).toBeGreaterThan(next!.restsOn!.underComplaint!);
    expect(next?.sentence).toContain(
      `going by ${next!.restsOn!.repairs} earlier repairs, ${next!.restsOn!.underComplaint} of them under this complaint`,
    );
    expect(next?.inQuestion.every(({ seconds }) => seconds !== undefined && seconds > 0)).toBe(true);
  });

  test('asks for one of the parts that read bad together to be lifted, the one that failed most often first', async () => {
    const next = await (await sampleBench()).whatNext(context, 'T-0012', '.');
    expect(next?.kind).toBe('lift');
    expect(next?.sentence).toMatch(
      /^D12 and D13 read bad together in circuit, and mask each other: lift D13 first, which has failed with a chance of \d+\u00a0% and takes about \d+ s, since it had in \d+ of the \d+ earlier repairs that told\.$/,
    );
    expect(next?.inQuestion.map(({ parts }) => parts)).toEqual([['D13'], ['D12']]);
  });

  test('says what is found, that history is too thin, and nothing of a repair that nothing names', async () => {
    const bench = await sampleBench();
    await bench.setRepair(context, { ...fresh, id: 'T-0901', family: 'WREN-19' });
    expect((await bench.whatNext(context, 'T-0003', '.'))?.sentence).toMatch(/^Q1 is proved failed/);
    expect(await bench.whatNext(context, 'T-0901', '.')).toMatchObject({ kind: 'too thin', inQuestion: [] });
    expect(await bench.whatNext(context, 'T-9999', '.')).toBeUndefined();
  });
});

describe('nextOn(board, mark) once a part is proved failed', () => {
  const after = (known: Parameters<typeof failing>[0], earlier: ReturnType<typeof failing>[], cleared: string[] = []) =>
    nextOn(
      {
        family: { name: 'HERON-48', boost: true, points: [], parts: [] },
        complaint: '',
        evidence: new Map([
          ...known.map((part) => [part, SHORTED] as const),
          ...cleared.map((part) => [part, GOOD] as const),
        ]),
        measured: new Set(),
        earlier,
        checks: [],
        lifting: new Map(),
      },
      '.',
    ).sentence;
  const earlier = [
    ...times(6, () => failing(['Q1', 'F1'])),
    ...times(4, () => failing(['Q1', 'R1'])),
    failing(['Q1', 'D9']),
    ...times(9, () => failing(['Q3', 'U2'])),
  ];

  test('names the parts that failed with it often enough, and of how many repairs', () => {
    expect(after(['Q1'], earlier)).toBe(
      'Q1 is proved failed. Of the 11 earlier repairs in which it had, F1 had failed too in 6 and R1 had failed too in 4: measure these as well.',
    );
  });

  test('leaves out what has been measured, and says so plainly where nothing is left or history is thin', () => {
    expect(after(['Q1'], earlier, ['F1'])).toBe(
      'Q1 is proved failed. Of the 11 earlier repairs in which it had, R1 had failed too in 4: measure it as well.',
    );
    const plain = 'Q1 is proved failed; what it may have taken along is still to be measured.';
    expect(after(['Q1'], earlier, ['F1', 'R1'])).toBe(plain);
    expect(after(['Q1'], earlier.slice(0, 4))).toBe(plain);
  });

  test('takes only repairs in which all of them had failed', () => {
    const both = [...times(5, () => failing(['Q1', 'R1', 'D1'])), ...times(20, () => failing(['Q1', 'F1']))];
    expect(after(['Q1', 'R1'], both)).toBe(
      'Q1 and R1 are proved failed. Of the 5 earlier repairs in which they had, D1 had failed too in 5: measure it as well.',
    );
  });
});

describe('repairs by hand', () => {
  test('an overruled line keeps its reason until it is taken back or undone', async () => {
    const bench = await sampleBench();
    const fuse = async () => (await bench.decision(context, 'T-0117', '.'))?.goBack.find(({ rule }) => rule === 'fuse');
    expect(await fuse()).not.toHaveProperty('overruled');
    await bench.overruleLine(context, 'T-0117', 'fuse', ' it conducts ');
    expect(await fuse()).toMatchObject({ standing: 'not measured', overruled: 'it conducts' });
    await bench.undo(context);
    expect(await fuse()).not.toHaveProperty('overruled');
    await bench.overruleLine(context, 'T-0117', 'fuse', 'it conducts');
    await bench.overruleLine(context, 'T-0117', 'fuse', '');
    expect(await fuse()).not.toHaveProperty('overruled');
    await expect(Promise.resolve().then(() => bench.overruleLine(context, 'T-9999', 'fuse', 'x'))).rejects.toThrow(
      'No repair T-9999',
    );
  });

  test('a repair that cannot be is refused with a sentence and changes nothing', async () => {
    const bench = await sampleBench();
    const before = await bench.summary(context);
    const wrong = { ...fresh, comebackOf: 'T-0900' };
    await expect(Promise.resolve().then(() => bench.setRepair(context, wrong))).rejects.toThrow('comeback of itself');
    expect(await bench.summary(context)).toEqual(before);
  });

  test('a repair that is added under an id that is taken replaces nothing', async () => {
    const bench = await sampleBench();
    const before = (await bench.repairs(context)).find(({ repair }) => repair.id === 'T-0117');
    const again = { ...fresh, id: 'T-0117' };
    expect(await bench.repairFault(context, again, true)).toMatchObject({ field: 'id' });
    await expect(Promise.resolve().then(() => bench.setRepair(context, again, true))).rejects.toThrow('T-0117 is on the bench already'); // prettier-ignore
    expect((await bench.repairs(context)).find(({ repair }) => repair.id === 'T-0117')).toEqual(before);
  });
});

describe('run-ins', () => {
  test('sum up each logged rail, beside the other boards of the family', async () => {
    const bench = await sampleBench();
    const [line, ...more] = await bench.runIns(context, 'T-0003');
    expect(more).toEqual([]);
    expect(line).toMatchObject({ point: '24V main', mode: 'DC volts', lastDigit: -3, backwards: 0 });
    expect(line?.summary).toMatchObject({
      entries: 12,
      longestOutside: 0,
      dropOuts: 0,
      minimum: 23.973,
      maximum: 24.088,
    });
    expect(line?.others.map(({ repair }) => repair)).not.toContain('T-0003');
    const drawing = await bench.runInTrace(context, 'T-0003', '24V main', 'DC volts', 40);
    expect(Math.min(...drawn(drawing!.low))).toBe(23.973);
    expect(Math.max(...drawn(drawing!.high))).toBe(24.088);
    expect(await bench.runInTrace(context, 'T-0003', 'bulk', 'DC volts', 40)).toBeUndefined();
  });
});

function drawn(values: Float64Array): Float64Array {
  return values.filter((value) => !Number.isNaN(value));
}

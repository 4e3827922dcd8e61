import { describe, expect, test } from 'vitest';
import type { Check } from '../../src/domain/check.ts';
import { RETURNED_AND_HELD } from '../../src/domain/good-rule.ts';
import type { DecimalMark } from '../../src/domain/quantity.ts';
import type { Reading } from '../../src/domain/reading.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { pastPoints, proposeFamily, proposeFor, tryBand } from '../../src/worker/bench/band-work.ts';
import { EMPTY_BENCH, judgeBench, type Judged } from '../../src/worker/bench/bench-data.ts';
import { Random } from '../support/bench/random.ts';
import { LEARNING } from '../support/learning-settings.ts';
import { logOf } from '../support/readings.ts';

const DAY = 86_400_000;
const START = Date.UTC(2026, 0, 5);
const check: Check = { family: 'HERON-48', point: '12V main', stage: 'live', mode: 'DC volts' };

function repair(id: string, given: Partial<Repair> = {}): Repair {
  const days = { received: START, returned: START };
  return { id, family: check.family, complaint: '', outcome: 'returned working', replaced: [], ...days, ...given };
}

/** A bench with these readings, whose repairs were all returned working. */
function benchOf(readings: readonly Partial<Reading>[], given: Partial<Record<string, Partial<Repair>>> = {}): Judged {
  const log = logOf(...readings);
  const repairs = new Map(log.names.repairs.labels.map((id) => [id, repair(id, given[id])]));
  return judgeBench({ ...EMPTY_BENCH, log, repairs });
}

/** Boards a day, each read by one of the meters in turn at 12 V and 5 V rails that scatter by 0.5 %. */
function boardsRead(
  boards: number,
  gains: Readonly<Record<string, number>>,
  seed: number,
): readonly Partial<Reading>[] {
  const random = new Random(seed);
  const meters = Object.entries(gains);
  return Array.from({ length: boards }, (_, board) => {
    const [meter, gain] = meters[board % meters.length]!;
    const own = { repair: `T-${board}`, meter, time: START + board * DAY, decimals: 3 };
    const value = (volts: number): number => Number((gain * random.normal(volts, 0.005 * volts)).toFixed(3));
    return [
      { ...own, point: '12V main', value: value(12) },
      { ...own, point: '5V standby', value: value(5) },
    ];
  }).flat();
}

describe('proposeFor(judged, check, settings)', () => {
  // Common practice, no source: a transistor of 0.3 to 0.9 Ω out of circuit is shorted, a fuse of megohms is blown.
  test('refuses a band that would pass a short in a transistor or a blown fuse', () => {
    const settings = { ...LEARNING, rule: { ...LEARNING.rule, newParts: true } };
    const learned = (point: string, base: number) => {
      const own = { point, stage: 'part out', mode: 'resistance', specimen: 'new part', decimals: 3 } as const;
      const readings = Array.from({ length: 20 }, (_, board) => ({
        ...own,
        repair: `T-${board}`,
        value: base * (1 + board / 100),
      }));
      return proposeFor(benchOf(readings), { ...check, point, stage: 'part out', mode: 'resistance' }, settings);
    };
    expect(learned('Q1 D→S', 0.4).reason).toContain('would pass a short in Q1');
    expect(learned('F1', 2e6).reason).toContain('would pass a blown F1');
    expect(learned('R1', 0.4).proposal).toBeDefined();
  });

  // The boards read 12 V ± 0.5 % in truth: the middle of the band is known, and its width is that of boards read by right meters.
  test('puts a meter’s known offset right first, so that the band is narrower and in its place', () => {
    let [put, asRead, middle] = [0, 0, 0];
    for (let seed = 1; seed <= 20; seed += 1) {
      const width = (gains: Readonly<Record<string, number>>): number => {
        const { proposal } = proposeFor(benchOf(boardsRead(120, gains, seed)), check, LEARNING);
        expect(proposal?.putRight.map(({ meter }) => meter)).toEqual(gains.M2 === 1 ? [] : ['M2']);
        middle = (proposal!.limits.low + proposal!.limits.high) / 2;
        return proposal!.limits.high - proposal!.limits.low;
      };
      asRead += width({ M1: 1, M2: 1, B1: 1 });
      put += width({ M1: 1, M2: 1.016, B1: 1 });
      expect(middle).toBeGreaterThan(11.93);
      expect(middle).toBeLessThan(12.07);
    }
    expect(put / asRead).toBeLessThan(1.1);
    expect(put / asRead).toBeGreaterThan(0.9);
  });

  test('says which meter was put right, by how much, and over how many readings', () => {
    const { proposal } = proposeFor(benchOf(boardsRead(120, { M1: 1, M2: 1.016, B1: 1 }, 5)), check, LEARNING);
    expect(proposal?.putRight).toMatchObject([{ meter: 'M2', readings: 40 }]);
    expect(proposal?.putRight[0]?.percent).toBeCloseTo(1.6, 0);
    expect(proposal?.differ).toBeUndefined();
  });

  test('leaves two meters as they are that differ where nobody knows which is off, and says so', () => {
    const { proposal } = proposeFor(benchOf(boardsRead(60, { M1: 1, M2: 1.016 }, 5)), check, LEARNING);
    expect(proposal?.putRight).toEqual([]);
    expect(proposal?.differ?.meters).toEqual(['M1', 'M2']);
    expect(proposal?.differ?.percent).toBeCloseTo(1.6, 0);
  });

  test('warns where the boards fall into two groups, and not where they are one', () => {
    const mixed = (apart: number): readonly string[] => {
      const own = boardsRead(40, { M1: 1 }, 7).filter(({ point }) => point === check.point);
      const boards = own.map((board, at) => ({ ...board, value: board.value! + (at % 2) * apart }));
      return proposeFor(benchOf(boards), check, LEARNING).proposal!.warnings;
    };
    const warning = 'The readings fall into two groups: two revisions of the board may be mixed together.';
    expect(mixed(1)).toContain(warning);
    expect(mixed(0)).not.toContain(warning);
  });

  test('counts a board once, by its last reading', () => {
    const runIn = Array.from({ length: 30 }, (_, at) => ({ repair: 'T-1', value: 12 + at / 100 }));
    const line = proposeFor(benchOf([...runIn, { repair: 'T-2', value: 12.5 }]), check, LEARNING);
    expect(line.readings).toBe(2);
    expect(line.proposal?.count).toBe(2);
    expect(proposeFor(benchOf(runIn), check, LEARNING).reason).toMatch('at least two good boards, and there is one');
  });

  test('takes the smallest range that over-range readings stated as what counts as open', () => {
    const over = { point: 'Q1 D→S', mode: 'resistance', state: 'over-range', specimen: 'new part' } as const;
    const judged = benchOf([
      { ...over, repair: 'T-1', value: 6e6 },
      { ...over, repair: 'T-2', value: 6e7 },
    ]);
    const line = proposeFor(judged, { ...check, point: 'Q1 D→S', mode: 'resistance' }, LEARNING);
    expect(line.proposal?.band.expects).toEqual({ kind: 'open', limit: 6e6 });
  });
});

describe('pastPoints(judged, check, rule) and tryBand(judged, check, expects, rule)', () => {
  test('follow the rule of known-good boards', () => {
    const readings = [{ repair: 'T-1' }, { repair: 'T-2' }, { repair: 'T-3', time: START + 90 * DAY }];
    const judged = benchOf(readings, {
      'T-1': { returned: START },
      'T-2': { returned: START + 80 * DAY },
      'T-3': { outcome: 'no fault found', returned: START + 1 * DAY },
    });
    const standing = (rule: typeof RETURNED_AND_HELD) => [...pastPoints(judged, check, rule).standing];
    expect(standing(RETURNED_AND_HELD)).toEqual([1, 1, 1]);
    expect(standing({ ...RETURNED_AND_HELD, heldDays: 30 })).toEqual([1, 0, 1]);
    expect(standing({ ...RETURNED_AND_HELD, heldDays: 30, withoutFault: false })).toEqual([1, 0, 0]);
    const expects = { kind: 'at least', limit: 13 } as const;
    expect(tryBand(judged, check, expects, RETURNED_AND_HELD).goodStopped).toMatchObject({ count: 3, of: 3 });
    expect(tryBand(judged, check, expects, { ...RETURNED_AND_HELD, heldDays: 30 }).goodStopped.of).toBe(2);
  });

  test('watch boards until the last day on which the bench was at work, which a lone mistyped date does not move', () => {
    const readings = Array.from({ length: 12 }, (_, day) => ({ repair: `T-${day}`, time: START + day * DAY }));
    const heldBoards = (last: Partial<Repair>): number => {
      const judged = benchOf(readings, { 'T-11': { received: START + 40 * DAY, ...last } });
      const { standing } = pastPoints(judged, check, { ...RETURNED_AND_HELD, heldDays: 45 });
      return standing.filter((one) => one === 1).length;
    };
    expect(heldBoards({ returned: START + 45 * DAY })).toBe(11);
    expect(heldBoards({ returned: START + 44 * DAY })).toBe(0);
    expect(heldBoards({ returned: START + 36_525 * DAY })).toBe(0);
  });
});

describe('tryBand(judged, check, expects, rule) of a band that follows the mains', () => {
  // √2 · 120 V − 2 V = 167.7 V and √2 · 230 V − 2 V = 323.3 V.
  const bulk: Check = { ...check, point: 'bulk' };
  const expects = { kind: 'rectified mains', below: 8, above: 2 } as const;
  const read = (id: string, mains: number | undefined, volts: number): readonly Partial<Reading>[] => [
    ...(mains === undefined ? [] : [{ repair: id, point: 'mains', mode: 'AC volts', value: mains } as const]),
    { repair: id, point: 'bulk', value: volts },
  ];

  test('holds each board against its own mains, and does not count one whose mains nobody measured', () => {
    const judged = benchOf([...read('T-1', 120, 166), ...read('T-2', 230, 320), ...read('T-3', 230, 166), ...read('T-4', undefined, 320)]); // prettier-ignore
    expect(tryBand(judged, bulk, expects, RETURNED_AND_HELD).goodStopped).toMatchObject({ count: 1, of: 3 });
    expect(tryBand(judged, bulk, { ...expects, mains: 230 }, RETURNED_AND_HELD).goodStopped).toMatchObject({ count: 1, of: 4 }); // prettier-ignore
  });

  test('is recommended in place of a learned one where no boost stage lifts the bulk', () => {
    const readings = Array.from({ length: 10 }, (_, at) => read(`T-${at}`, 230, 320 + at / 10)).flat();
    const judged = benchOf(readings);
    const family = { name: check.family, points: [], parts: [] };
    const warningsWith = (boost: boolean) => {
      const families = new Map([[family.name, { ...family, boost }]]);
      return proposeFor({ ...judged, data: { ...judged.data, families } }, bulk, LEARNING).proposal?.warnings;
    };
    expect(warningsWith(false)).toEqual([expect.stringContaining('the bulk follows the mains')]);
    expect(warningsWith(true)).toEqual([]);
  });
});

describe('what few boards promise', () => {
  const benchWith = (point: string, values: readonly number[]) =>
    benchOf(values.map((value, at) => ({ repair: `T-${at}`, point, value })));
  const few = (point: string, ...values: readonly number[]) =>
    proposeFor(benchWith(point, values), { ...check, point }, LEARNING).proposal!;

  test('says how many more boards bring the band within the marking, with the marking meanwhile', () => {
    const { warnings, boardsWanted } = few('12V main', 11.85, 12.02, 12.2);
    expect(boardsWanted).toBeGreaterThan(0);
    expect(warnings).toEqual([expect.stringMatching(/^Wider than the board’s marking ± 5 %, since boards are few: \d+ more boards? would bring it within\. Keep to that meanwhile\.$/)]); // prettier-ignore
  });

  test('sets the thousands of boards apart as the decimal mark goes', () => {
    const warned = (mark: DecimalMark) =>
      proposeFor(benchWith('12V main', [11.7, 12, 12.3]), check, { ...LEARNING, mark }).proposal!.warnings;
    expect(warned('.')).toEqual([expect.stringMatching(/: \d,\d{3} more boards would/)]);
    expect(warned(',')).toEqual([expect.stringMatching(/: \d\.\d{3} more boards would/)]);
  });

  test('weighs a backlight output by ± 15 % (common practice, no source), and says where no number of boards will do', () => {
    expect(few('backlight', 140, 150, 158).warnings[0]).toMatch('Wider than the usual ± 15 % (common practice)');
    expect(few('12V main', 8, 12, 16).warnings[0]).toMatch('Good boards spread more than the board’s marking ± 5 % allows'); // prettier-ignore
  });
});

describe('proposeFamily(judged, family, LEARNING, context)', () => {
  const judged = benchOf(boardsRead(12, { M1: 1 }, 3));

  test('tells how many checks are done, and gives a line for each', async () => {
    const told: unknown[] = [];
    const context = { signal: new AbortController().signal, report: (progress: unknown) => told.push(progress) };
    const lines = await proposeFamily(judged, check.family, LEARNING, context);
    expect(lines.map((line) => line.check.point)).toEqual(['12V main', '5V standby']);
    expect(told).toEqual([{ done: 0, total: 2 }, { done: 1, total: 2 }]); // prettier-ignore
  });

  test('stops where it is told to', async () => {
    const stop = new AbortController();
    const context = { signal: stop.signal, report: ({ done }: { done: number }) => { if (done === 1) stop.abort(new Error('stopped')); } }; // prettier-ignore
    await expect(proposeFamily(judged, check.family, LEARNING, context)).rejects.toThrow('stopped');
  });
});

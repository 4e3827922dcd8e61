import { describe, expect, test } from 'vitest';
import { HABITS, type HabitName } from './habits.ts';
import { simulateBench, type SimulatedBench } from './simulate.ts';

const made = new Map<HabitName, SimulatedBench>();

function benchOf(name: HabitName): SimulatedBench {
  const bench = made.get(name) ?? simulateBench({ seed: 3, repairs: 400, habits: HABITS[name] });
  made.set(name, bench);
  return bench;
}

/** Share of repairs with a reading as received. */
function shareProbed({ readings, repairs }: SimulatedBench, some = repairs): number {
  const probed = new Set(readings.filter(({ stage }) => stage === 'as received').map(({ repair }) => repair));
  return some.filter(({ id }) => probed.has(id)).length / some.length;
}

describe('habits', () => {
  test('of a careful bench change nothing', () => {
    expect(JSON.stringify(benchOf('careful'))).toBe(JSON.stringify(simulateBench({ seed: 3, repairs: 400 })));
  });

  test('leave truly failed parts unread, and replace what was not measured', () => {
    const unreadFailures = (bench: SimulatedBench): number => {
      const before = bench.readings.filter(({ stage }) => stage === 'as received' || stage === 'part out');
      const read = new Set(before.map(({ repair, point }) => `${repair} ${point.split(' ')[0]!}`));
      const failed = bench.truth.flatMap((one) => one.failed.map(({ part }) => `${one.repair} ${part}`));
      return failed.filter((one) => !read.has(one)).length / failed.length;
    };
    expect(unreadFailures(benchOf('careful'))).toBeLessThan(0.05);
    expect(unreadFailures(benchOf('hurried'))).toBeGreaterThan(0.15);
  });

  test('measure a share of the boards, from some week on another', () => {
    expect(shareProbed(benchOf('seldom measures'))).toBeCloseTo(0.4, 1);
    const bench = benchOf('measures more');
    const early = bench.repairs.filter(({ received }) => received < Date.UTC(2026, 2, 25));
    const late = bench.repairs.filter(({ received }) => received > Date.UTC(2026, 3, 1));
    expect(shareProbed(bench, late)).toBeGreaterThan(2 * shareProbed(bench, early));
  });

  test('change how often a story happens, which the truth tells', () => {
    const { truth, repairs } = benchOf('careful, rates change');
    const share = (early: boolean): number => {
      const own = truth.filter(({ family }, at) => family === 'HERON-48' && repairs[at]!.received < Date.UTC(2026, 2, 25) === early);
      return own.filter(({ story }) => story === 'boost transistor').length / own.length;
    }; // prettier-ignore
    expect(share(true)).toBeGreaterThan(2 * share(false));
  });

  test('write minutes, halves of comebacks and odd spellings', () => {
    const { readings, repairs } = benchOf('untidy papers');
    expect(readings.every(({ time }) => time % 60_000 === 0)).toBe(true);
    const links = new Set(repairs.map(({ comebackOf }) => comebackOf));
    expect(repairs.some(({ id, outcome }) => outcome === 'comeback' && !links.has(id))).toBe(true);
    const outcomes = new Map(repairs.map(({ id, outcome }) => [id, outcome]));
    expect(repairs.some(({ comebackOf }) => comebackOf !== undefined && outcomes.get(comebackOf) !== 'comeback')).toBe(true); // prettier-ignore
    expect(repairs.some(({ complaint }) => complaint !== complaint.toLowerCase().trim())).toBe(true);
  });

  test('let each family have a meter of its own', () => {
    const { readings } = benchOf('meters apart');
    const volts = readings.filter(({ mode, stage }) => mode === 'DC volts' && stage === 'live');
    expect(new Set(volts.filter(({ family }) => family === 'HERON-48').map(({ meter }) => meter))).toEqual(new Set(['M1'])); // prettier-ignore
    expect(new Set(volts.filter(({ family }) => family === 'CURLEW-60').map(({ meter }) => meter))).toEqual(new Set(['M2'])); // prettier-ignore
  });

  test('pack more boards into a week, and mix revisions', () => {
    const end = ({ repairs }: SimulatedBench): number => repairs.at(-1)!.received;
    expect(end(benchOf('takes more boards'))).toBeLessThan(end(benchOf('hurried')));
    const rails = benchOf('two revisions').readings.filter(({ family, point, stage }) => family === 'HERON-48' && point.startsWith('24') && stage === 'live'); // prettier-ignore
    const high = rails.filter(({ value }) => value > 24.5).length / rails.length;
    expect(high).toBeGreaterThan(0.15);
    expect(high).toBeLessThan(0.6);
  });
});

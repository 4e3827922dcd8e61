import { describe, expect, test } from 'vitest';
import { limitsOf } from '../../../src/domain/band.ts';
import { MODES, SPECIMENS, STAGES, STATES, type Reading } from '../../../src/domain/reading.ts';
import { OUTCOMES } from '../../../src/domain/repair.ts';
import { Board } from './board.ts';
import { METERS } from './meters.ts';
import { circuitMode, type How } from './model.ts';
import { Random } from './random.ts';
import { BANDS, FAMILY_MODELS } from './scenario.ts';
import { simulateBench, type RepairTruth } from './simulate.ts';
import { SAMPLE_OPTIONS } from './sample-logs.ts';

const sample = simulateBench(SAMPLE_OPTIONS);
const large = simulateBench({ seed: 11, repairs: 3000 });
const truthOf = new Map(large.truth.map((truth) => [truth.repair, truth]));

function howFailed(truth: RepairTruth | undefined, point: string): How | undefined {
  const [designator] = point.split(' ');
  return truth?.failed.find(({ part }) => part === designator)?.how;
}

/** What an answer out of circuit says of a part by its own band: the rules of the trade, written apart from the project's judging. */
function seen({ family, point, mode, state, value }: Reading): How | 'good' {
  const band = BANDS.find(
    (one) =>
      one.family === family && one.point === point && one.mode === mode && (one.stage ?? 'part out') === 'part out',
  );
  const limits = band && limitsOf(band.expects);
  if (!limits) throw new Error(`No band for ${family}, ${point}, ${mode}.`);
  const number = state === 'over-range' ? Infinity : value;
  if (number > limits.high) return 'open';
  if (number >= limits.low) return 'good';
  if (mode === 'capacitance') return 'open';
  return number < (mode === 'diode' ? 0.1 : 10) ? 'shorted' : 'leaky';
}

describe('simulateBench', () => {
  test('makes the same bench from the same seed, and another from another', () => {
    const bytes = (seed: number): string => JSON.stringify(simulateBench({ seed, repairs: 40 }));
    expect(bytes(5)).toBe(bytes(5));
    expect(bytes(6)).not.toBe(bytes(5));
  });

  test('makes 150 repairs with about 26 readings each, some ten of them of the new family near the end', () => {
    expect(sample.repairs).toHaveLength(150);
    expect(sample.readings.length).toBeGreaterThan(3500);
    expect(sample.readings.length).toBeLessThan(4500);
    const siskin = sample.repairs.flatMap(({ family }, index) => (family === 'SISKIN-40' ? [index] : []));
    expect(siskin.length).toBeGreaterThanOrEqual(7);
    expect(siskin.length).toBeLessThanOrEqual(14);
    expect(siskin[0]).toBeGreaterThan(100);
  });

  test('has every stage, mode, state, specimen, outcome and meter among its readings and repairs', () => {
    const met = <K extends keyof Reading>(key: K): Set<Reading[K]> =>
      new Set(sample.readings.map((reading) => reading[key]));
    expect(met('stage')).toEqual(new Set(STAGES));
    expect(met('mode')).toEqual(new Set(MODES));
    expect(met('state')).toEqual(new Set(STATES));
    expect(met('specimen')).toEqual(new Set(SPECIMENS));
    expect(met('meter')).toEqual(new Set(METERS.map(({ name }) => name)));
    expect(new Set(sample.repairs.map(({ outcome }) => outcome))).toEqual(new Set(OUTCOMES));
  });

  test('goes on in time from reading to reading, no two at one moment, each repair within a day', () => {
    for (const [index, { time }] of large.readings.entries())
      expect(time).toBeGreaterThan(large.readings[index - 1]?.time ?? 0);
    const days = new Map<string, Set<string>>();
    for (const { repair, time } of large.readings) {
      const day = new Date(time).toISOString().slice(0, 10);
      days.set(repair, (days.get(repair) ?? new Set()).add(day));
    }
    expect([...days.values()].filter(({ size }) => size !== 1)).toEqual([]);
  });

  test('gives a number to values alone, and one that its shown digits write in full', () => {
    for (const { state, value, prefix, decimals } of large.readings) {
      if (state !== 'value') expect(value).toBeNaN();
      else {
        const counts = (value / 10 ** prefix) * 10 ** decimals;
        expect(Math.abs(counts - Math.round(counts))).toBeLessThan(1e-6);
      }
    }
  });

  test('reads a short at every point of a group where any member is shorted, before anything is mended', () => {
    let checked = 0;
    for (const reading of large.readings) {
      if (reading.stage !== 'as received' || reading.state !== 'value') continue;
      const family = FAMILY_MODELS.find(({ name }) => name === reading.family);
      const part = family?.parts.find(({ point }) => point === reading.point);
      if (!family || !part || reading.mode !== circuitMode(part)) continue;
      const sameNodes = family.parts.filter(({ nodes }) => [...nodes].sort().join() === [...part.nodes].sort().join());
      if (sameNodes.length < 2) continue;
      const truth = truthOf.get(reading.repair);
      const shorted = sameNodes.some(({ point }) => howFailed(truth, point) === 'shorted');
      checked++;
      expect(reading.value < (reading.mode === 'diode' ? 0.1 : 10)).toBe(shorted);
    }
    expect(checked).toBeGreaterThan(2000);
  });

  test('reads out of circuit what has truly failed, as it failed', () => {
    const wrong: string[] = [];
    let checked = 0;
    const ofBoard = large.readings.filter(({ stage, specimen }) => stage === 'part out' && specimen === 'board');
    for (const reading of ofBoard) {
      if (reading.family === 'SISKIN-40' || reading.point.startsWith('C1')) continue;
      const how = howFailed(truthOf.get(reading.repair), reading.point) ?? 'good';
      checked++;
      if (seen(reading) !== how) wrong.push(`${reading.repair} ${reading.point}: ${seen(reading)}, truly ${how}`);
    }
    expect(wrong).toEqual([]);
    expect(checked).toBeGreaterThan(3000);
  });

  test('shows a worn bulk capacitor by its capacitance and its series resistance', () => {
    const worn = large.readings.filter(
      ({ point, mode }) => point === 'C1 +→-' && (mode === 'capacitance' || mode === 'ESR'),
    );
    const banded = worn.filter(({ family }) => family !== 'SISKIN-40');
    expect(banded.length).toBeGreaterThan(100);
    for (const reading of banded) {
      expect(seen(reading)).toBe(howFailed(truthOf.get(reading.repair), reading.point) ?? 'good');
    }
  });

  test('ties every live reading to its true value, within the accuracy and drift of its meter', () => {
    for (const { repair, live } of large.truth) {
      for (const { reading: index, value } of live) {
        const reading = large.readings[index];
        expect(reading?.repair).toBe(repair);
        if (reading?.state !== 'value') continue;
        expect(Math.abs(reading.value - value)).toBeLessThan(
          0.04 * Math.abs(value) + 6 * 10 ** (reading.prefix - reading.decimals),
        );
      }
    }
  });

  test('lets M2 read right at first and 1.6 % high from its day on', () => {
    const ratios = { before: [] as number[], after: [] as number[] };
    const drift = large.meters.find(({ meter }) => meter === 'M2')?.drift;
    for (const { live } of large.truth) {
      for (const { reading: index, value } of live) {
        const reading = large.readings[index];
        if (reading?.meter !== 'M2' || reading.mode !== 'DC volts') continue;
        ratios[drift && reading.time >= drift.since ? 'after' : 'before'].push(reading.value / value - 1);
      }
    }
    const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(ratios.before.length).toBeGreaterThan(30);
    expect(Math.abs(mean(ratios.before))).toBeLessThan(0.001);
    expect(Math.abs(mean(ratios.after) - 0.016)).toBeLessThan(0.0005);
  });

  test('brings boards back as the same family, after they were returned, and never twice for one repair', () => {
    const byId = new Map(large.repairs.map((repair) => [repair.id, repair]));
    const back = large.repairs.filter(({ comebackOf }) => comebackOf !== undefined);
    expect(back.length).toBeGreaterThan(80);
    expect(new Set(back.map(({ comebackOf }) => comebackOf)).size).toBe(back.length);
    for (const { comebackOf = '', family, received } of back) {
      const earlier = byId.get(comebackOf);
      expect(earlier).toMatchObject({ family, outcome: 'comeback' });
      expect(truthOf.get(comebackOf)?.comesBack).toBeDefined();
      expect(received).toBeGreaterThanOrEqual(earlier?.returned ?? Infinity);
    }
  });

  test('keeps replaced and failed apart: in CURLEW-60 the clamp fails most and the rectifiers are replaced most', () => {
    const failures = new Map<string, number>();
    const replacements = new Map<string, number>();
    const count = (counts: Map<string, number>, part: string): Map<string, number> =>
      counts.set(part, (counts.get(part) ?? 0) + 1);
    for (const { id, family, replaced } of large.repairs) {
      if (family !== 'CURLEW-60') continue;
      for (const { part } of truthOf.get(id)?.failed ?? []) count(failures, part);
      for (const part of replaced) count(replacements, part);
    }
    expect(failures.get('D13')).toBeGreaterThan(3 * (failures.get('D11') ?? NaN));
    expect(replacements.get('D11')).toBeGreaterThan(replacements.get('D13') ?? NaN);
  });
});

describe('Board', () => {
  test('shows one short at every part across the same two nodes, and hides an open part behind a good one', () => {
    const curlew = FAMILY_MODELS.find(({ name }) => name === 'CURLEW-60');
    const story = curlew?.stories[0];
    if (!curlew || !story) throw new Error('The scenario lacks CURLEW-60.');
    const read = (how: How): number[] => {
      const board = new Board(curlew, story, [{ part: 'D13', how }], new Random(1));
      return curlew.parts.filter(({ designator }) => /^D1[123]$/.test(designator)).map((part) => board.inCircuit(part));
    };
    for (const volts of read('shorted')) expect(volts).toBeLessThan(0.1);
    for (const volts of read('open')) expect(Math.abs(volts - 0.37)).toBeLessThan(0.05);
  });
});

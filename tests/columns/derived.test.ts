import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { changeFromStageBefore, ratioToNewPart } from '../../src/columns/derived.ts';
import { STAGES, type Reading } from '../../src/domain/reading.ts';
import type { ReadingLog } from '../../src/columns/reading-log.ts';
import { readings } from '../support/reading-arbitraries.ts';
import { logOf } from '../support/readings.ts';

/** Rows of each repair by time, unknown times last, as the bench hands them on. */
function rowsByRepair(log: ReadingLog): readonly Uint32Array[] {
  return log.names.repairs.labels.map((_, repair) => {
    const rows = [...log.repair.keys()].filter((row) => log.repair[row] === repair);
    const time = (row: number): number => (Number.isNaN(log.time[row]) ? Infinity : log.time[row]!);
    return Uint32Array.from(rows.sort((a, b) => (time(a) === time(b) ? a - b : time(a) - time(b))));
  });
}

/** All readings with a number that share repair, family, point and mode with one, in order of time. */
function beside(all: readonly Reading[], one: Reading): readonly Reading[] {
  const time = (reading: Reading): number => (Number.isNaN(reading.time) ? Infinity : reading.time);
  return all
    .filter(
      (other) =>
        other.state === 'value' &&
        (['repair', 'family', 'point', 'mode'] as const).every((field) => other[field] === one[field]),
    )
    .sort((a, b) => (time(a) === time(b) ? a.origin.line - b.origin.line : time(a) - time(b)));
}

function naiveChange(all: readonly Reading[], one: Reading): number {
  if (one.state !== 'value') return NaN;
  const stages = STAGES.slice(0, STAGES.indexOf(one.stage)).reverse();
  const same = beside(all, one).filter((other) => other.specimen === one.specimen);
  const before = stages.map((stage) => same.filter((other) => other.stage === stage).at(-1)).find(Boolean);
  return before === undefined ? NaN : one.value - before.value;
}

function naiveRatio(all: readonly Reading[], one: Reading): number {
  if (one.state !== 'value' || one.specimen === 'new part') return NaN;
  const fresh = beside(all, one).filter((other) => other.specimen === 'new part').at(-1); // prettier-ignore
  return fresh === undefined || fresh.value === 0 ? NaN : one.value / fresh.value;
}

describe('changeFromStageBefore(log, rowsByRepair)', () => {
  test('is the distance from the last number of the nearest earlier stage, as a search through all readings finds it', () => {
    fc.assert(
      fc.property(readings, (all) => {
        const log = logOf(...all);
        expect([...changeFromStageBefore(log, rowsByRepair(log))]).toEqual(all.map((one) => naiveChange(all, one)));
      }),
      { numRuns: 300 },
    );
  });

  test('passes over a stage without a number', () => {
    const log = logOf(
      { stage: 'as received', value: 0.4 },
      { stage: 'part out', state: 'over-range', value: NaN },
      { stage: 'refitted', value: 12 },
    );
    expect([...changeFromStageBefore(log, rowsByRepair(log))]).toEqual([NaN, NaN, 11.6]);
  });
});

describe('ratioToNewPart(log, rowsByRepair)', () => {
  test('is the number over the last one of a new part, as a search through all readings finds it', () => {
    fc.assert(
      fc.property(readings, (all) => {
        const log = logOf(...all);
        expect([...ratioToNewPart(log, rowsByRepair(log))]).toEqual(all.map((one) => naiveRatio(all, one)));
      }),
      { numRuns: 300 },
    );
  });
});

import type { ReadingRow } from '../contract/readings.ts';
import type { PartComparison } from '../contract/repairs.ts';

/** The readings of each part that was lifted, or has a new one measured beside it, by point and mode in order of time. */
export function comparisons(readings: readonly ReadingRow[]): readonly PartComparison[] {
  const last = (point: string, mode: string, is: (reading: ReadingRow) => boolean): ReadingRow | undefined =>
    readings.findLast((reading) => reading.point === point && reading.mode === mode && is(reading));
  const beside = readings.filter(({ stage, specimen }) => stage === 'part out' || specimen === 'new part');
  const first = new Map(beside.toReversed().map((reading) => [`${reading.mode} ${reading.point}`, reading]));
  return [...first.values()].reverse().map(({ point, mode }) => {
    const inCircuit = last(point, mode, ({ stage, specimen }) => stage === 'as received' && specimen === 'board');
    const outOfCircuit = last(point, mode, ({ stage, specimen }) => stage === 'part out' && specimen === 'board');
    const newPart = last(point, mode, ({ specimen }) => specimen === 'new part');
    const ratio = ratioOf(outOfCircuit ?? inCircuit, newPart);
    return {
      point,
      ...(inCircuit && { inCircuit }),
      ...(outOfCircuit && { outOfCircuit }),
      ...(newPart && { newPart }),
      ...(ratio && { ratio }),
    };
  });
}

function ratioOf(own: ReadingRow | undefined, other: ReadingRow | undefined): PartComparison['ratio'] {
  if (own?.state !== 'value' || other?.state !== 'value' || other.value === 0 || own.value === 0) return undefined;
  return { value: own.value / other.value, digits: Math.min(digitsOf(own), digitsOf(other)) };
}

/** Significant digits that a meter showed of a number other than zero. */
function digitsOf({ value, prefix, decimals }: ReadingRow): number {
  return Math.max(1, Math.floor(Math.log10(Math.abs(value)) + 1e-9) - (prefix - decimals) + 1);
}

import type { ReadingRow } from '../../session/answers.ts';
import { bandsHash, hashOf, readingsHash } from '../route.ts';

/** The address of the repair that a reading belongs to. */
export function repairWay({ repair }: ReadingRow): string {
  return hashOf('repairs', repair);
}

/** The address at which the band of a reading's point, stage and mode is seen and set. */
export function bandWay({ family, point, stage, mode }: ReadingRow): string {
  return bandsHash('check', { family, point, stage, mode });
}

/** The address of all readings of a reading's file in the order of its lines, where it stands among its neighbours. */
export function originWay({ origin }: ReadingRow): string {
  return readingsHash({
    filters: [{ field: 'file', oneOf: [origin.file] }],
    sort: [{ field: 'line', descending: false }],
  });
}

/** Where a cell leads by what it names; what says nothing else of its own leads to the band, which it is held against. */
export function wayFrom(column: string, row: ReadingRow): string {
  switch (column) {
    case 'time':
    case 'origin':
      return originWay(row);
    case 'repair':
      return repairWay(row);
    case 'family':
      return hashOf('families', row.family);
    default:
      return bandWay(row);
  }
}

import { isOutOfBand } from '../../domain/verdict.ts';
import type { RepairLine } from '../contract/repairs.ts';
import type { Judged } from './bench-data.ts';

/** All repairs that the table of repairs lists or readings name, by id in natural order. */
export function repairLines(judged: Judged): readonly RepairLine[] {
  const { data } = judged;
  const ids = new Set([...data.repairs.keys(), ...data.log.names.repairs.labels]);
  const collator = new Intl.Collator('en', { numeric: true });
  return [...ids].sort(collator.compare).map((id) => repairLine(judged, id));
}

/** One repair as the list of repairs shows it; of one that no table lists, what its readings tell. */
export function repairLine(judged: Judged, id: string): RepairLine {
  const { data, verdicts } = judged;
  const { checks, families } = data.log.names;
  const rows = rowsOf(judged, id);
  const outOfBand = rows.reduce((count, row) => count + (isOutOfBand(verdicts[row]!) ? 1 : 0), 0);
  const listed = data.repairs.get(id);
  const first = rows[0];
  const family = first === undefined ? '' : families.label(checks.familyCode(data.log.check[first]!));
  return {
    repair: listed ?? {
      id,
      family,
      complaint: '',
      received: first === undefined ? NaN : data.log.time[first]!,
      returned: NaN,
      outcome: 'open',
      replaced: [],
    },
    readings: rows.length,
    outOfBand,
    listed: listed !== undefined,
  };
}

/** The rows of a repair in order of time. */
export function rowsOf(judged: Judged, id: string): Uint32Array {
  return judged.rowsByRepair[judged.data.log.names.repairs.find(id)] ?? new Uint32Array(0);
}

import { VERDICT_MASK, VERDICTS } from '../../domain/verdict.ts';
import type { Judged } from './bench-data.ts';
import type { Rejudged } from '../contract/bands.ts';

const MOST_REPAIRS = 100;

/** What changed between two judgings of the same readings; nothing to look for where nothing was judged anew. */
export function compareVerdicts(before: Judged, after: Judged): Rejudged {
  if (before.verdicts === after.verdicts) return { readings: 0, changes: [], repairs: [] };
  const { log } = after.data;
  const counts = new Uint32Array(VERDICTS.length * VERDICTS.length);
  const repairs = new Set<number>();
  let readings = 0;
  for (let row = 0; row < log.count; row += 1) {
    const from = before.verdicts[row]! & VERDICT_MASK;
    const to = after.verdicts[row]! & VERDICT_MASK;
    if (from === to) continue;
    readings += 1;
    counts[from * VERDICTS.length + to]! += 1;
    if (repairs.size < MOST_REPAIRS) repairs.add(log.repair[row]!);
  }
  const changes = VERDICTS.flatMap((from, fromCode) =>
    VERDICTS.map((to, toCode) => ({ from, to, readings: counts[fromCode * VERDICTS.length + toCode]! })),
  );
  return {
    readings,
    changes: changes.filter((change) => change.readings > 0),
    repairs: [...repairs].map((code) => log.names.repairs.label(code)),
  };
}

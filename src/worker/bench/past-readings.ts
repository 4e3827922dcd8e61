import type { ReadingLog } from '../../columns/reading-log.ts';
import type { Check } from '../../domain/check.ts';
import type { Family } from '../../domain/family.ts';
import type { GoodRule } from '../../domain/good-rule.ts';
import { evidenceOf, type Evidence } from '../../judging/evidence.ts';
import { benchHistory, pastReadings, type BenchHistory, type PastReadings } from '../../learning/standing.ts';
import { familyNamed, type Judged } from './bench-data.ts';
import { remembered } from './remembered.ts';
import { rowsOf } from './repair-lines.ts';
import { workingPeriod } from './working-period.ts';

const NONE: PastReadings = { rows: new Uint32Array(), standing: new Uint8Array(), returned: new Uint8Array() };

/** What is told once for each judging, and asked for with every move of a limit. */
interface Known {
  readonly rowsByCheck: readonly Uint32Array[];
  readonly history: BenchHistory;
  readonly failures: Map<string, ReadonlyMap<string, Evidence>>;
  readonly past: Map<string, PastReadings>;
}

const knownOf = remembered((judged): Known => {
  const { log, repairs } = judged.data;
  return {
    rowsByCheck: groupByCheck(log),
    history: benchHistory(log, repairs, workingPeriod(judged)?.last ?? -Infinity),
    failures: new Map(),
    past: new Map(),
  };
});

/** The past readings of a check by what they stand for under a rule; none where nothing was read. */
export function pastOf(judged: Judged, check: Check, rule: GoodRule): PastReadings {
  const code = checkCode(judged, check);
  if (code < 0) return NONE;
  const own = knownOf(judged);
  const key = JSON.stringify([code, rule.heldDays, rule.withoutFault, rule.newParts]);
  const past = own.past.get(key) ?? sortPast(judged, check.family, code, rule, own);
  own.past.set(key, past);
  return past;
}

/** The code of a check in the log; -1 where nothing was read of it. */
export function checkCode(judged: Judged, { family, point, stage, mode }: Check): number {
  const { names } = judged.data.log;
  for (let code = 0; code < names.checks.size; code += 1) {
    const named = names.checks.check(code, names.families, names.points);
    if (named.family === family && named.point === point && named.stage === stage && named.mode === mode) return code;
  }
  return -1;
}

function sortPast(judged: Judged, name: string, code: number, rule: GoodRule, own: Known): PastReadings {
  const { data } = judged;
  const family = familyNamed(data, name) ?? { name, boost: false, points: [], parts: [] };
  return pastReadings(data.log, code, own.rowsByCheck[code]!, {
    ...own.history,
    family,
    rule,
    hasFailed: (repair, part) => evidenceIn(judged, repair, family, own).get(part)?.finding === 'failed',
  });
}

/** The evidence of each repair is asked for once, when it is first wanted. */
function evidenceIn(judged: Judged, repair: string, family: Family, own: Known): ReadonlyMap<string, Evidence> {
  const key = JSON.stringify([family.name, repair]);
  const found = own.failures.get(key) ?? evidenceOf(judged.data.log, judged.verdicts, rowsOf(judged, repair), family);
  own.failures.set(key, found);
  return found;
}

function groupByCheck(log: ReadingLog): readonly Uint32Array[] {
  const counts = new Uint32Array(log.names.checks.size);
  for (let row = 0; row < log.count; row += 1) counts[log.check[row]!]! += 1;
  const groups = Array.from(counts, (count) => new Uint32Array(count));
  counts.fill(0);
  for (let row = 0; row < log.count; row += 1) {
    const check = log.check[row]!;
    groups[check]![counts[check]!] = row;
    counts[check]! += 1;
  }
  return groups;
}

import type { RepairLine } from '../../session/answers.ts';
import { daysBetween } from './repair-numbers.ts';

/** Columns of the list of repairs by which it can be ordered. */
export const REPAIR_COLUMNS = [
  'repair',
  'family',
  'complaint',
  'received',
  'days',
  'outcome',
  'comeback',
  'readings',
  'out of band',
  'replaced',
] as const;
export type RepairColumn = (typeof REPAIR_COLUMNS)[number];

export interface RepairOrder {
  readonly column: RepairColumn;
  readonly descending: boolean;
}

/** The newest first, as the bench works on those. */
export const FIRST_ORDER: RepairOrder = { column: 'received', descending: true };

/** Reads `-received`; an order that is not understood is the first one. */
export function parseOrder(text: string | null): RepairOrder {
  const descending = text?.startsWith('-') === true;
  const asked = descending ? text.slice(1) : text;
  const column = REPAIR_COLUMNS.find((name) => name === asked);
  return column === undefined ? FIRST_ORDER : { column, descending };
}

export function writeOrder({ column, descending }: RepairOrder): string {
  return (descending ? '-' : '') + column;
}

/** Columns whose largest entries are looked for first. */
const FALLING_FIRST: readonly RepairColumn[] = ['received', 'days', 'readings', 'out of band'];

/** The order after a press on a column's head: first its usual direction, then the other. */
export function turnedOrder(order: RepairOrder, column: RepairColumn): RepairOrder {
  if (order.column === column) return { column, descending: !order.descending };
  return { column, descending: FALLING_FIRST.includes(column) };
}

/** Days on the bench, first and last included: until it was returned, or until `today` where it is still open; `NaN` where unknown. */
export function daysOnBench({ received, returned, outcome }: RepairLine['repair'], today: number): number {
  return daysBetween(received, outcome === 'open' ? today : returned);
}

/**
 * The repairs whose id, family, complaint, outcome, replaced parts or earlier repair hold every word of `text`, in order.
 * @param today - local wall milliseconds counted as if UTC, for boards that are still on the bench
 */
export function orderRepairs(
  lines: readonly RepairLine[],
  text: string,
  order: RepairOrder,
  today = NaN,
): readonly RepairLine[] {
  const words = text.toLowerCase().split(/\s+/).filter((word) => word !== ''); // prettier-ignore
  const found = lines.filter((line) => {
    const said = saidOf(line);
    return words.every((word) => said.includes(word));
  });
  const sign = order.descending ? -1 : 1;
  const days = (line: RepairLine): number => sinceEver(daysOnBench(line.repair, today));
  const compare: Compare = order.column === 'days' ? (a, b) => days(a) - days(b) : COMPARE[order.column];
  return found.sort((a, b) => sign * compare(a, b) || byId(a, b));
}

function saidOf({ repair }: RepairLine): string {
  const { id, family, complaint, outcome, replaced, comebackOf } = repair;
  return [id, family, complaint, outcome, ...replaced, comebackOf ?? ''].join('\n').toLowerCase();
}

type Compare = (a: RepairLine, b: RepairLine) => number;

const natural = new Intl.Collator('en', { numeric: true });
const byId: Compare = (a, b) => natural.compare(a.repair.id, b.repair.id);

const COMPARE: Readonly<Record<Exclude<RepairColumn, 'days'>, Compare>> = {
  repair: byId,
  family: (a, b) => natural.compare(a.repair.family, b.repair.family),
  complaint: (a, b) => natural.compare(a.repair.complaint, b.repair.complaint),
  received: (a, b) => sinceEver(a.repair.received) - sinceEver(b.repair.received),
  outcome: (a, b) => natural.compare(a.repair.outcome, b.repair.outcome),
  comeback: (a, b) => natural.compare(a.repair.comebackOf ?? '', b.repair.comebackOf ?? ''),
  readings: (a, b) => a.readings - b.readings,
  'out of band': (a, b) => a.outOfBand - b.outOfBand,
  replaced: (a, b) => a.repair.replaced.length - b.repair.replaced.length,
};

/** A day that nobody wrote down counts as the earliest. */
function sinceEver(day: number): number {
  return Number.isNaN(day) ? Number.MIN_SAFE_INTEGER : day;
}

import type { ReadingLog } from '../columns/reading-log.ts';
import type { FilePlan, HeadCount } from '../domain/file-plan.ts';
import type { SetAside } from '../domain/import-record.ts';
import { kindOfReason } from '../domain/set-aside-kind.ts';
import { HEAD_BYTES } from './caps.ts';
import type { FileCounts } from './file-contents.ts';
import { FileTable } from './file-table.ts';
import { RecordReader } from './record-reader.ts';
import { takerFor } from './row-takers.ts';
import { FileDecoder } from './text-decoder.ts';

/** The rows of a file's beginning as a plan reads them. */
interface HeadRead {
  readonly counts: FileCounts;
  /** Readings, where the plan's shape is that. */
  readonly log: ReadingLog | undefined;
}

/** Reads the whole records of a file's beginning by a plan. @param text - decoded @param atEnd - whether it is all of the file */
export function readHead(name: string, text: string, plan: FilePlan, atEnd: boolean): HeadRead {
  const taker = takerFor(name, plan);
  const table = new FileTable(name, plan, taker);
  table.add(new RecordReader(plan.separator).push(text, atEnd));
  const counts = table.finish(true);
  const contents = taker.contents();
  return { counts, log: contents.shape === 'readings' ? contents.log : undefined };
}

/**
 * Counts what a plan would read and set aside of a file's beginning, so that each answer shows at once what it does.
 * @param head - the first bytes of the file, as `planFile` had them
 */
export function countHead(name: string, head: Uint8Array, plan: FilePlan): HeadCount {
  const isWhole = head.length < HEAD_BYTES;
  const { counts, log } = readHead(name, new FileDecoder(plan.encoding).decode(head), plan, isWhole);
  return {
    rows: counts.rows,
    taken: counts.taken,
    setAside: byReason(counts.setAside),
    times: log && timesOf(log),
    isWhole,
  };
}

/** Rows by what is wrong with them: the sentences without the cell that each quotes first. */
function byReason(rows: readonly SetAside[]): HeadCount['setAside'] {
  const uses = new Map<string, number>();
  for (const { reason } of rows) {
    const kind = kindOfReason(reason);
    uses.set(kind, (uses.get(kind) ?? 0) + 1);
  }
  return [...uses].map(([reason, count]) => ({ reason, rows: count })).sort((a, b) => b.rows - a.rows);
}

function timesOf({ time }: ReadingLog): HeadCount['times'] {
  let first = Infinity;
  let last = -Infinity;
  for (const moment of time) {
    if (moment < first) first = moment;
    if (moment > last) last = moment;
  }
  return first <= last ? [first, last] : undefined;
}

import type { FilePlan, Preview } from '../domain/file-plan.ts';
import { CellReader } from './cell-reader.ts';
import { FileTable } from './file-table.ts';
import { countHead } from './head-count.ts';
import { RecordReader } from './record-reader.ts';
import { takerFor } from './row-takers.ts';
import { FileDecoder } from './text-decoder.ts';

/** Rows of data that a preview shows. */
const ROWS = 12;
/** Cells of a row that a preview shows. */
const CELLS = 200;

/** The first rows of a file as the plan reads them. @param head - the first bytes of the file, as `planFile` had them */
export function previewFile(name: string, head: Uint8Array, plan: FilePlan): Preview {
  const text = new FileDecoder(plan.encoding).decode(head);
  const records = new RecordReader(plan.separator);
  const first = records.push(text, false);
  const batch = first.rows.length > 0 ? first : new RecordReader(plan.separator).push(text, true);
  const table = new FileTable(name, plan, takerFor(name, plan));
  const data: { line: number; cells: readonly string[] }[] = [];
  let at = 0;
  for (; at < batch.rows.length && data.length < ROWS; at += 1) {
    const cells = batch.rows[at]!;
    const before = table.rows;
    table.add({ ...batch, rows: [cells], lines: [batch.lines[at]!], faults: faultOf(batch.faults, at), tooLong: [] });
    if (table.rows > before) data.push({ line: batch.lines[at]!, cells });
  }
  const reader = new CellReader(plan);
  return {
    plan,
    rows: data.map(({ line, cells }) => ({
      line,
      cells: cells.slice(0, CELLS).map((_, index) => reader.cell(cells, line, index)),
    })),
    problems: table.finish(true).setAside,
    count: countHead(name, head, plan),
  };
}

function faultOf<Fault>(faults: ReadonlyMap<number, Fault>, at: number): ReadonlyMap<number, Fault> {
  const fault = faults.get(at);
  return fault === undefined ? new Map() : new Map([[0, fault]]);
}

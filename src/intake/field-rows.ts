import type { Field, FilePlan } from '../domain/file-plan.ts';
import { CLOCK_FOR_DAY, cellReason, columnText, type Fault } from './fault.ts';
import type { RowTaker } from './row-taker.ts';
import { TimeScanner } from './time-scanner.ts';

/** Rows of a small table, whose cells are read by the fields that its plan gives them. */
export abstract class FieldRows implements RowTaker {
  fault = '';
  faultColumn = '';
  /** Moments and days that name a time zone, which is left off. */
  protected zoned = 0;
  protected readonly plan: FilePlan;
  readonly #places: ReadonlyMap<Field, number>;
  readonly #times = new TimeScanner();

  constructor(plan: FilePlan) {
    this.plan = plan;
    this.#places = new Map(plan.columns.map((use, index): [Field, number] => [use.field, index]).reverse());
  }

  take(cells: readonly string[], line: number): boolean {
    return this.read(cells, line) !== null;
  }

  /** Reads a row's record. @returns null where it cannot be read; `fault` then says why */
  protected abstract read(cells: readonly string[], line: number): true | null;

  /** A field's text; empty where the file has no such column. */
  protected text(cells: readonly string[], field: Field): string {
    const place = this.#places.get(field);
    return place === undefined ? '' : (cells[place] ?? '');
  }

  protected has(cells: readonly string[], field: Field): boolean {
    return this.text(cells, field).trim() !== '';
  }

  protected header(field: Field): string {
    return this.plan.columns[this.#places.get(field) ?? -1]?.header ?? '';
  }

  /** The moment or day of a cell that is not empty, local wall time in milliseconds; null where it cannot be read. */
  protected moment(cells: readonly string[], field: Field): number | null {
    const fault = this.#times.scan(this.text(cells, field).trim(), this.plan.dateOrder);
    if (fault !== undefined || this.#times.parts === 'clock')
      return this.failCell(cells, field, fault ?? CLOCK_FOR_DAY);
    if (this.#times.zoned) this.zoned += 1;
    return this.#times.time;
  }

  /** A cell of a column that the file lacks is empty, and its field's name stands for the header. */
  protected failCell(cells: readonly string[], field: Field, fault: Fault): null {
    const place = this.#places.get(field);
    const header = place === undefined ? field : this.header(field);
    return this.fail(cellReason(this.text(cells, field).trim(), header, place ?? 0, fault), field);
  }

  /** @param what - what the row does not name, as in “no family” */
  protected failEmpty(field: Field, what: string, remedy = 'Fill it in.'): null {
    const place = this.#places.get(field);
    if (place === undefined) return this.fail(`This row names ${what}, and no column does. Add a column for it.`);
    return this.fail(`This row names ${what} in ${columnText(this.header(field), place)}. ${remedy}`, field);
  }

  /** @param field - that of the column that is meant; none where the row as a whole is */
  protected fail(fault: string, field?: Field): null {
    this.fault = fault;
    this.faultColumn = field === undefined ? '' : this.header(field);
    return null;
  }
}

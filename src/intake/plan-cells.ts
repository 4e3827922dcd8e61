import type { Field, FilePlan } from '../domain/file-plan.ts';
import { cellReason, columnText, type Fault } from './fault.ts';

/** Why a row is not taken, as sentences, and the header of the column that is meant. */
export interface RowFault {
  readonly fault: string;
  readonly column: string;
}

/** The cells of a table's rows by the fields that its plan gives them. */
export class PlanCells {
  readonly #plan: FilePlan;
  readonly #places: ReadonlyMap<Field, number>;

  constructor(plan: FilePlan) {
    this.#plan = plan;
    this.#places = new Map(plan.columns.map((use, index): [Field, number] => [use.field, index]).reverse());
  }

  /** A field's text; empty where the file has no such column. */
  text(cells: readonly string[], field: Field): string {
    const place = this.#places.get(field);
    return place === undefined ? '' : (cells[place] ?? '');
  }

  has(cells: readonly string[], field: Field): boolean {
    return this.text(cells, field).trim() !== '';
  }

  header(field: Field): string {
    return this.#plan.columns[this.#places.get(field) ?? -1]?.header ?? '';
  }

  /** A cell of a column that the file lacks is empty, and its field's name stands for the header. */
  faultOf(cells: readonly string[], field: Field, fault: Fault): RowFault {
    const place = this.#places.get(field);
    const header = place === undefined ? field : this.header(field);
    return {
      fault: cellReason(this.text(cells, field).trim(), header, place ?? 0, fault),
      column: this.header(field),
    };
  }

  /** @param what - what the row does not name, as in “no family” */
  emptyFault(field: Field, what: string): RowFault {
    const place = this.#places.get(field);
    if (place === undefined)
      return { fault: `This row names ${what}, and no column does. Add a column for it.`, column: '' };
    const where = columnText(this.header(field), place);
    return { fault: `This row names ${what} in ${where}. Fill it in.`, column: this.header(field) };
  }
}

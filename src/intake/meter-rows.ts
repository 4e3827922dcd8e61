import { VALUE } from '../columns/reading-log.ts';
import { accuracyFault, meterFault } from '../domain/fault.ts';
import type { Field, FilePlan } from '../domain/file-plan.ts';
import type { Accuracy, Meter } from '../domain/meter.ts';
import { MODE_UNITS, MODES, type Mode } from '../domain/reading.ts';
import { orList, shorten, type Fault } from './fault.ts';
import { GivenLines } from './given-lines.ts';
import { readHeader } from './header-text.ts';
import { cleanName } from './names.ts';
import { PlanCells, type RowFault } from './plan-cells.ts';
import { NO_ANSWER } from './quantity-faults.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import type { RowTaker } from './row-taker.ts';
import { TimeScanner } from './time-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { readMode } from './words.ts';

/** What rows have told of a meter so far. */
interface Draft {
  readonly accuracies: Accuracy[];
  mark: string;
  due: number | undefined;
}

const DAY = 86_400_000;

/** Turns the rows of a table of meters into their profiles: a row a mode and range, or a meter alone with its mark or its day. */
export class MeterRows implements RowTaker {
  fault = '';
  faultColumn = '';
  readonly #plan: FilePlan;
  readonly #cells: PlanCells;
  readonly #givenLines: GivenLines;
  readonly #drafts = new Map<string, Draft>();
  readonly #quantity = new QuantityScanner();
  readonly #times = new TimeScanner();

  constructor(plan: FilePlan) {
    this.#plan = plan;
    this.#cells = new PlanCells(plan);
    this.#givenLines = new GivenLines(plan);
  }

  take(cells: readonly string[], line: number): boolean {
    const name = cleanName(this.#cells.text(cells, 'meter')) || (this.#givenLines.at(line).meter ?? '');
    if (name === '') return this.#fail(this.#cells.emptyFault('meter', 'no meter'));
    const draft = this.#drafts.get(name) ?? { accuracies: [], mark: '', due: undefined };
    const accuracy = this.#accuracy(cells);
    if (accuracy === null) return false;
    if (accuracy && draft.accuracies.some((known) => isSameRange(known, accuracy)))
      return this.#fail(rowFault(`An earlier row states this range of “${shorten(name)}” already. Take one of the two out.`)); // prettier-ignore
    const mark = cleanName(this.#cells.text(cells, 'over-range mark'));
    const due = this.#due(cells);
    if (due === null) return false;
    const differs = (mark !== '' && draft.mark !== '' && mark !== draft.mark) || (due !== undefined && draft.due !== undefined && due !== draft.due); // prettier-ignore
    if (differs)
      return this.#fail(rowFault(`An earlier row says otherwise of “${shorten(name)}”. Correct one of the two.`));
    const fault = meterFault({ name, accuracies: [], ...(mark !== '' && { overRangeMark: mark }) });
    if (fault !== undefined) return this.#fail(rowFault(fault));
    if (accuracy) draft.accuracies.push(accuracy);
    this.#drafts.set(name, { ...draft, mark: mark || draft.mark, due: due ?? draft.due });
    return true;
  }

  /** A table of this shape names its units in a column or in its cells. */
  useUnits(): void {
    this.fault = '';
  }

  finish(): void {
    this.fault = '';
  }

  notices(): string[] {
    return [];
  }

  contents(): { shape: 'meters'; meters: Meter[] } {
    const meters = [...this.#drafts].map(([name, { accuracies, mark, due }]) => ({
      name,
      accuracies,
      ...(mark !== '' && { overRangeMark: mark }),
      ...(due !== undefined && { calibrationDue: due }),
    }));
    return { shape: 'meters', meters };
  }

  /** The row's accuracy; undefined where it states none, null where it cannot be read. */
  #accuracy(cells: readonly string[]): Accuracy | undefined | null {
    const isStated = (['mode', 'range limit', 'percent', 'counts', 'resolution'] as const).some((field) => this.#cells.has(cells, field)); // prettier-ignore
    if (!isStated) return undefined;
    const mode = readMode(this.#cells.text(cells, 'mode'));
    if (mode === undefined) {
      const isEmpty = !this.#cells.has(cells, 'mode');
      return this.#null(isEmpty ? this.#cells.emptyFault('mode', 'no mode') : this.#cells.faultOf(cells, 'mode', NO_MODE)); // prettier-ignore
    }
    const upTo = this.#number(cells, 'range limit', mode);
    const percent = upTo === null ? null : this.#number(cells, 'percent', undefined);
    const counts = percent === null ? null : this.#number(cells, 'counts', undefined);
    const hasResolution = this.#cells.has(cells, 'resolution');
    const resolution = counts !== null && hasResolution ? this.#number(cells, 'resolution', mode) : undefined;
    if (upTo === null || percent === null || counts === null || resolution === null) return null;
    const accuracy = { mode, upTo, percent, counts, ...(resolution !== undefined && { resolution }) };
    const fault = accuracyFault(accuracy);
    return fault === undefined ? accuracy : this.#null(this.#cells.faultOf(cells, fault.field, fault));
  }

  /** A number in the mode's SI unit, or a plain one where no mode is given; null where there is none. */
  #number(cells: readonly string[], field: Field, mode: Mode | undefined): number | null {
    const text = this.#cells.text(cells, field).trim();
    const cell = mode === undefined ? text.replace(/^[±+]\s*/, '').replace(/\s*(?:%|counts?|digits?)$/i, '') : text;
    const unitText = this.#cells.text(cells, 'unit').trim();
    const stated = unitText === '' ? readHeader(this.#cells.header(field)).unit : parseUnit(unitText);
    if (mode !== undefined && unitText !== '' && stated === undefined)
      return this.#null(this.#cells.faultOf(cells, 'unit', NO_UNIT));
    if (cell === '') return this.#null(this.#cells.emptyFault(field, `no ${field}`));
    const fault = this.#quantity.scan(cell, this.#plan.decimalMark, mode === undefined ? 0 : (stated?.prefix ?? 0));
    if (fault !== undefined || this.#quantity.state !== VALUE) {
      const told = fault === undefined || fault === NO_ANSWER ? NO_NUMBER : fault;
      return this.#null(this.#cells.faultOf(cells, field, told));
    }
    const unit = this.#quantity.unit ?? (mode === undefined ? undefined : stated?.unit);
    if (unit !== undefined && unit !== (mode && MODE_UNITS[mode])) {
      const wrong = mode === undefined ? `is in ${unit}, where a plain number is expected` : `is in ${unit}, in which ${mode} is not measured`; // prettier-ignore
      return this.#null(this.#cells.faultOf(cells, field, { wrong, remedy: 'Correct the unit or the mode.' }));
    }
    return this.#quantity.value;
  }

  /** The start of the day on which the calibration falls due; undefined where the row has none, null where it cannot be read. */
  #due(cells: readonly string[]): number | undefined | null {
    const cell = this.#cells.text(cells, 'calibration due').trim();
    if (cell === '') return undefined;
    const fault = this.#times.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined || this.#times.parts === 'clock')
      return this.#null(this.#cells.faultOf(cells, 'calibration due', fault ?? NO_DAY));
    return Math.floor(this.#times.time / DAY) * DAY;
  }

  #null(fault: RowFault): null {
    this.#fail(fault);
    return null;
  }

  #fail({ fault, column }: RowFault): false {
    this.fault = fault;
    this.faultColumn = column;
    return false;
  }
}

function rowFault(fault: string): RowFault {
  return { fault, column: '' };
}

function isSameRange(one: Accuracy, other: Accuracy): boolean {
  return one.mode === other.mode && one.upTo === other.upTo && one.resolution === other.resolution;
}

const NO_MODE: Fault = { wrong: 'is no mode that is known', remedy: `Write ${orList(MODES)}.` };
const NO_UNIT: Fault = { wrong: 'is none of the units V, Ω, F and A', remedy: 'Correct the unit.' };
const NO_NUMBER: Fault = { wrong: 'is no number', remedy: 'Take it from the meter’s data sheet.' };
const NO_DAY: Fault = {
  wrong: 'is a time of day where a day is expected',
  remedy: 'Write the day, such as 2026-03-01.',
};

import { VALUE } from '../columns/reading-log.ts';
import { DAY } from '../domain/day.ts';
import { accuracyFault, meterFault } from '../domain/fault.ts';
import type { Field, FilePlan } from '../domain/file-plan.ts';
import type { Accuracy, Meter } from '../domain/meter.ts';
import { MODE_UNITS, MODES, type Mode } from '../domain/reading.ts';
import { CORRECT_UNIT, noWord, shorten, wrongUnit, type Fault } from './fault.ts';
import { FieldRows } from './field-rows.ts';
import { GivenLines } from './given-lines.ts';
import { readHeader } from './header-text.ts';
import { cleanName } from './names.ts';
import { NO_ANSWER } from './quantity-faults.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { readMode } from './words.ts';

/** What rows have told of a meter so far. */
interface Draft {
  readonly accuracies: Accuracy[];
  mark: string;
  due: number | undefined;
}

/** Turns the rows of a table of meters into their profiles: a row a mode and range, or a meter alone with its mark or its day. */
export class MeterRows extends FieldRows {
  readonly #givenLines: GivenLines;
  readonly #drafts = new Map<string, Draft>();
  readonly #quantity = new QuantityScanner();

  constructor(plan: FilePlan) {
    super(plan);
    this.#givenLines = new GivenLines(plan);
  }

  protected read(cells: readonly string[], line: number): true | null {
    const name = cleanName(this.text(cells, 'meter')) || (this.#givenLines.at(line).meter ?? '');
    if (name === '') return this.failEmpty('meter', 'no meter');
    const draft = this.#drafts.get(name) ?? { accuracies: [], mark: '', due: undefined };
    const accuracy = this.#accuracy(cells);
    if (accuracy === null) return null;
    if (accuracy && draft.accuracies.some((known) => isSameRange(known, accuracy)))
      return this.fail(`An earlier row states this range of “${shorten(name)}” already. Take one of the two out.`); // prettier-ignore
    const mark = cleanName(this.text(cells, 'over-range mark'));
    const due = this.#due(cells);
    if (due === null) return null;
    const differs = (mark !== '' && draft.mark !== '' && mark !== draft.mark) || (due !== undefined && draft.due !== undefined && due !== draft.due); // prettier-ignore
    if (differs) return this.fail(`An earlier row says otherwise of “${shorten(name)}”. Correct one of the two.`);
    const fault = meterFault({ name, accuracies: [], ...(mark !== '' && { overRangeMark: mark }) });
    if (fault !== undefined) return this.fail(fault);
    if (accuracy) draft.accuracies.push(accuracy);
    this.#drafts.set(name, { ...draft, mark: mark || draft.mark, due: due ?? draft.due });
    return true;
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
    const isStated = (['mode', 'range limit', 'percent', 'counts', 'resolution'] as const).some((field) => this.has(cells, field)); // prettier-ignore
    if (!isStated) return undefined;
    const mode = readMode(this.text(cells, 'mode'));
    if (mode === undefined) {
      const isEmpty = !this.has(cells, 'mode');
      return isEmpty ? this.failEmpty('mode', 'no mode') : this.failCell(cells, 'mode', noWord('mode', MODES));
    }
    const upTo = this.#number(cells, 'range limit', mode);
    const percent = upTo === null ? null : this.#number(cells, 'percent', undefined);
    const counts = percent === null ? null : this.#number(cells, 'counts', undefined);
    const hasResolution = this.has(cells, 'resolution');
    const resolution = counts !== null && hasResolution ? this.#number(cells, 'resolution', mode) : undefined;
    if (upTo === null || percent === null || counts === null || resolution === null) return null;
    const accuracy = { mode, upTo, percent, counts, ...(resolution !== undefined && { resolution }) };
    const fault = accuracyFault(accuracy);
    return fault === undefined ? accuracy : this.failCell(cells, fault.field, fault);
  }

  /** A number in the mode's SI unit, or a plain one where no mode is given; null where there is none. */
  #number(cells: readonly string[], field: Field, mode: Mode | undefined): number | null {
    const text = this.text(cells, field).trim();
    const cell = mode === undefined ? text.replace(/^[±+]\s*/, '').replace(/\s*(?:%|counts?|digits?)$/i, '') : text;
    const unitText = this.text(cells, 'unit').trim();
    const stated = unitText === '' ? readHeader(this.header(field)).unit : parseUnit(unitText);
    if (mode !== undefined && unitText !== '' && stated === undefined) return this.failCell(cells, 'unit', NO_UNIT);
    if (cell === '') return this.failEmpty(field, `no ${field}`);
    const fault = this.#quantity.scan(cell, this.plan.decimalMark, mode === undefined ? 0 : (stated?.prefix ?? 0));
    if (fault !== undefined || this.#quantity.state !== VALUE) {
      const told = fault === undefined || fault === NO_ANSWER ? NO_NUMBER : fault;
      return this.failCell(cells, field, told);
    }
    const unit = this.#quantity.unit ?? (mode === undefined ? undefined : stated?.unit);
    if (unit !== undefined && unit !== (mode && MODE_UNITS[mode])) {
      const plain = { wrong: `is in ${unit}, where a plain number is expected`, remedy: CORRECT_UNIT };
      return this.failCell(cells, field, mode === undefined ? plain : wrongUnit(unit, mode));
    }
    return this.#quantity.value;
  }

  /** The start of the day on which the calibration falls due; undefined where the row has none, null where it cannot be read. */
  #due(cells: readonly string[]): number | undefined | null {
    if (!this.has(cells, 'calibration due')) return undefined;
    const due = this.moment(cells, 'calibration due');
    return due === null ? null : Math.floor(due / DAY) * DAY;
  }
}

function isSameRange(one: Accuracy, other: Accuracy): boolean {
  return one.mode === other.mode && one.upTo === other.upTo && one.resolution === other.resolution;
}

const NO_UNIT: Fault = { wrong: 'is none of the units V, Ω, F and A', remedy: 'Correct the unit.' };
const NO_NUMBER: Fault = { wrong: 'is no number', remedy: 'Take it from the meter’s data sheet.' };

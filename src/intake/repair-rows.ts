import type { Field, FilePlan } from '../domain/file-plan.ts';
import { OUTCOMES, type Repair } from '../domain/repair.ts';
import { cellReason, columnText, orList, type Fault } from './fault.ts';
import { cleanName } from './names.ts';
import type { RowTaker } from './row-taker.ts';
import { stateOfWord } from './state-words.ts';
import { TimeScanner } from './time-scanner.ts';
import { readOutcome } from './words.ts';

/** Turns the rows of a repairs table into repairs. */
export class RepairRows implements RowTaker {
  fault = '';
  faultColumn = '';
  readonly #plan: FilePlan;
  readonly #times = new TimeScanner();
  readonly #repairs: Repair[] = [];
  readonly #lines = new Map<string, number>();
  #zoned = 0;

  constructor(plan: FilePlan) {
    this.#plan = plan;
  }

  take(cells: readonly string[], line: number): boolean {
    const id = cleanName(this.#cell(cells, 'repair'));
    if (id === '')
      return this.#fail('repair', `This row names no repair in ${this.#column('repair')}. Fill in its id.`);
    const earlier = this.#lines.get(id);
    if (earlier !== undefined)
      return this.#failCell(cells, 'repair', {
        wrong: `stands on line ${earlier} already`,
        remedy: 'Keep one of the two rows.',
      });
    const received = this.#day(cells, 'received');
    const returned = this.#day(cells, 'returned');
    if (received === undefined || returned === undefined) return false;
    if (returned < received) return this.#failCell(cells, 'returned', BEFORE_RECEIVED);
    const comebackOf = cleanName(this.#cell(cells, 'comeback of'));
    const bench = cleanName(this.#cell(cells, 'bench'));
    const outcomeText = this.#cell(cells, 'outcome').trim();
    const outcome =
      outcomeText === '' ? (Number.isNaN(returned) ? 'open' : 'returned working') : readOutcome(outcomeText);
    if (!outcome) {
      return this.#failCell(cells, 'outcome', NO_OUTCOME);
    }
    this.#lines.set(id, line);
    this.#repairs.push({
      id,
      family: cleanName(this.#cell(cells, 'family')),
      complaint: cleanName(this.#cell(cells, 'complaint')),
      received,
      returned,
      outcome,
      replaced: designators(this.#cell(cells, 'replaced')),
      ...(comebackOf === '' ? {} : { comebackOf }),
      ...(bench === '' ? {} : { bench }),
    });
    return true;
  }

  /** A table of this shape names its units in a column. */
  useUnits(): void {
    this.fault = '';
  }

  finish(): void {
    this.fault = '';
  }

  notices(): string[] {
    return this.#zoned > 0 ? [`${this.#zoned} days name a time zone, which was left off.`] : [];
  }

  contents(): { shape: 'repairs'; repairs: Repair[] } {
    return { shape: 'repairs', repairs: this.#repairs };
  }

  /** A day or moment; `NaN` where the cell is empty, undefined where it cannot be read. */
  #day(cells: readonly string[], field: Field): number | undefined {
    const cell = this.#cell(cells, field);
    if (stateOfWord(cell) === 'blank') return NaN;
    const fault = this.#times.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined || this.#times.parts === 'clock') {
      this.#failCell(cells, field, fault ?? NO_DAY);
      return undefined;
    }
    if (this.#times.zoned) this.#zoned += 1;
    return this.#times.time;
  }

  #cell(cells: readonly string[], field: Field): string {
    return cells[this.#place(field)] ?? '';
  }

  #place(field: Field): number {
    return this.#plan.columns.findIndex((use) => use.field === field);
  }

  #column(field: Field): string {
    const place = this.#place(field);
    return place < 0 ? 'any column' : columnText(this.#plan.columns[place]?.header ?? '', place);
  }

  #failCell(cells: readonly string[], field: Field, fault: Fault): false {
    const place = this.#place(field);
    const header = this.#plan.columns[place]?.header ?? '';
    return this.#fail(field, cellReason(cells[place] ?? '', header, place, fault));
  }

  #fail(field: Field, fault: string): false {
    this.fault = fault;
    this.faultColumn = this.#plan.columns[this.#place(field)]?.header ?? '';
    return false;
  }
}

const BEFORE_RECEIVED: Fault = {
  wrong: 'lies before the day on which the repair was received',
  remedy: 'Correct one of the two days.',
};
const NO_OUTCOME: Fault = { wrong: 'is no outcome that is known', remedy: `Write ${orList(OUTCOMES)}.` };
const NO_DAY: Fault = {
  wrong: 'is a time of day where a day is expected',
  remedy: 'Write the day, such as 2026-03-01.',
};

/** The designators of a list such as `F1, Q1 Q2` or `F1;Q1`. */
function designators(text: string): string[] {
  if (stateOfWord(text) === 'blank') return [];
  return [
    ...new Set(
      text
        .split(/[\s,;/+&]+/)
        .map(cleanName)
        .filter((name) => name !== ''),
    ),
  ];
}

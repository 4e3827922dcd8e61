import { countText } from '../domain/count-text.ts';
import type { Field } from '../domain/file-plan.ts';
import { OUTCOMES, type Repair } from '../domain/repair.ts';
import { noWord, type Fault } from './fault.ts';
import { FieldRows } from './field-rows.ts';
import { cleanName } from './names.ts';
import { stateOfWord } from './state-words.ts';
import { readOutcome } from './words.ts';

/** Turns the rows of a repairs table into repairs. */
export class RepairRows extends FieldRows {
  readonly #repairs: Repair[] = [];
  readonly #lines = new Map<string, number>();

  protected read(cells: readonly string[], line: number): true | null {
    const id = cleanName(this.text(cells, 'repair'));
    if (id === '') return this.failEmpty('repair', 'no repair', 'Fill in its id.');
    const earlier = this.#lines.get(id);
    if (earlier !== undefined)
      return this.failCell(cells, 'repair', {
        wrong: `stands on line ${earlier} already`,
        remedy: 'Keep one of the two rows.',
      });
    const received = this.#day(cells, 'received');
    const returned = this.#day(cells, 'returned');
    if (received === null || returned === null) return null;
    if (returned < received) return this.failCell(cells, 'returned', BEFORE_RECEIVED);
    const comebackOf = cleanName(this.text(cells, 'comeback of'));
    const bench = cleanName(this.text(cells, 'bench'));
    const outcomeText = this.text(cells, 'outcome').trim();
    const outcome =
      outcomeText === '' ? (Number.isNaN(returned) ? 'open' : 'returned working') : readOutcome(outcomeText);
    if (!outcome) return this.failCell(cells, 'outcome', noWord('outcome', OUTCOMES));
    this.#lines.set(id, line);
    this.#repairs.push({
      id,
      family: cleanName(this.text(cells, 'family')),
      complaint: cleanName(this.text(cells, 'complaint')),
      received,
      returned,
      outcome,
      replaced: designators(this.text(cells, 'replaced')),
      ...(comebackOf === '' ? {} : { comebackOf }),
      ...(bench === '' ? {} : { bench }),
    });
    return true;
  }

  notices(): string[] {
    const days = countText(this.zoned, this.plan.decimalMark);
    return this.zoned > 0 ? [`${days} days name a time zone, which was left off.`] : [];
  }

  contents(): { shape: 'repairs'; repairs: Repair[] } {
    return { shape: 'repairs', repairs: this.#repairs };
  }

  /** A day or moment; `NaN` where the cell is empty, null where it cannot be read. */
  #day(cells: readonly string[], field: Field): number | null {
    return stateOfWord(this.text(cells, field)) === 'blank' ? NaN : this.moment(cells, field);
  }
}

const BEFORE_RECEIVED: Fault = {
  wrong: 'lies before the day on which the repair was received',
  remedy: 'Correct one of the two days.',
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

import { bandFault, type Band, type BandKind, type Expectation } from '../domain/band.ts';
import { MODE_UNITS, type Mode } from '../domain/reading.ts';
import type { Field, FilePlan } from '../domain/file-plan.ts';
import type { Family } from '../domain/family.ts';
import { VALUE } from '../columns/reading-log.ts';
import { STATES } from '../domain/reading.ts';
import { FamilyTable } from './family-table.ts';
import { cleanName } from './names.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import type { RowTaker } from './row-taker.ts';
import { TimeScanner } from './time-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { readBasis, readKind, readMode, readRole, readStage, readYesNo } from './words.ts';

/** Turns the rows of a bands table into bands, and into the families, points and parts that it declares. */
export class BandRows implements RowTaker {
  fault = '';
  faultColumn = '';
  readonly #plan: FilePlan;
  readonly #places: ReadonlyMap<Field, number>;
  readonly #families = new FamilyTable();
  readonly #bands: Band[] = [];
  readonly #quantity = new QuantityScanner();
  readonly #times = new TimeScanner();

  constructor(plan: FilePlan) {
    this.#plan = plan;
    this.#places = new Map(plan.columns.map((use, index): [Field, number] => [use.field, index]).reverse());
  }

  take(cells: readonly string[]): boolean {
    const family = cleanName(this.#cell(cells, 'family')) || (this.#plan.given.family ?? '');
    if (family === '') return this.#fail('family', 'This row names no family: fill it in, or state one for the file.');
    const point = cleanName(this.#cell(cells, 'point'));
    const boost = this.#cell(cells, 'boost').trim() === '' ? undefined : readYesNo(this.#cell(cells, 'boost'));
    if (boost === undefined && this.#cell(cells, 'boost').trim() !== '')
      return this.#failCell(cells, 'boost', 'is neither yes nor no');
    const role = readRole(this.#cell(cells, 'role'));
    if (!role && this.#cell(cells, 'role').trim() !== '') {
      return this.#failCell(cells, 'role', 'is none of mains, bulk, standby, main, backlight and part');
    }
    const nodes = this.#nodes(cells);
    if (nodes === null) return this.#failCell(cells, 'nodes', 'does not name two nodes: write them as one/other');
    const band = this.#band(cells, family, point);
    if (band === null) return false;
    const rail = cleanName(this.#cell(cells, 'rail'));
    const part = cleanName(this.#cell(cells, 'part'));
    const contradiction = this.#families.declare({ family, boost, point, role, rail, part, nodes });
    if (contradiction !== undefined) return this.#fail(undefined, contradiction);
    if (band) this.#bands.push(band);
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
    return [];
  }

  contents(): { shape: 'bands'; families: Family[]; bands: Band[] } {
    return { shape: 'bands', families: this.#families.families(), bands: this.#bands };
  }

  /** The row's band; undefined where it declares none, null where it cannot be read. */
  #band(cells: readonly string[], family: string, point: string): Band | undefined | null {
    const kindText = this.#cell(cells, 'kind').trim();
    if (kindText === '') return undefined;
    const kind = readKind(kindText);
    if (!kind) {
      return this.#refuse(
        'kind',
        `“${kindText.slice(0, 60)}” is no kind of band: write between, percent, at least, at most, open, shorted or rectified mains.`,
      );
    }
    if (point === '') return this.#refuse('point', 'This band names no test point: fill it in.');
    const modeText = this.#cell(cells, 'mode');
    const mode = readMode(modeText) ?? (modeText.trim() === '' ? this.#plan.given.mode : undefined);
    if (!mode) return this.#refuse('mode', 'This row names no mode that is known: fill in what is measured.');
    const stageText = this.#cell(cells, 'stage');
    const stage = readStage(stageText);
    if (!stage && stageText.trim() !== '' && !/^any$/i.test(stageText.trim())) {
      return this.#refuse('stage', `“${stageText.slice(0, 60)}” is no stage that is known: leave it empty for any.`);
    }
    const expects = this.#expectation(cells, kind, mode);
    if (!expects) return null;
    const fault = bandFault(expects);
    if (fault !== undefined) return this.#refuse('kind', fault);
    const author = cleanName(this.#cell(cells, 'author'));
    const date = this.#date(cells);
    if (date === null) return null;
    const basisText = this.#cell(cells, 'basis');
    const basis = basisText.trim() === '' ? 'typed in' : readBasis(basisText);
    if (!basis)
      return this.#refuse(
        'basis',
        `“${basisText.slice(0, 60)}” is no basis that is known: write board marking, learned, common practice or typed in.`,
      );
    return {
      family,
      point,
      mode,
      ...(stage ? { stage } : {}),
      expects,
      basis,
      ...(author === '' ? {} : { author }),
      ...(date === undefined ? {} : { date }),
    };
  }

  #expectation(cells: readonly string[], kind: BandKind, mode: Mode): Expectation | undefined {
    const percentOnly = kind === 'rectified mains';
    const number = (field: Field): number =>
      this.#number(cells, field, percentOnly && field !== 'nominal' ? undefined : mode);
    this.fault = '';
    let expects: Expectation;
    if (kind === 'between') expects = { kind, low: number('low'), high: number('high') };
    else if (kind === 'percent')
      expects = { kind, nominal: number('nominal'), percent: this.#number(cells, 'percent', undefined) };
    else if (kind === 'at least' || kind === 'open') expects = { kind, limit: number('low') };
    else if (kind === 'at most' || kind === 'shorted') expects = { kind, limit: number('high') };
    else {
      const mains = this.#cell(cells, 'nominal').trim() === '' ? undefined : number('nominal');
      expects = { kind, below: number('low'), above: number('high'), ...(mains === undefined ? {} : { mains }) };
    }
    return this.fault === '' ? expects : undefined;
  }

  /** A number of the row, in the mode's SI unit, or in percent where no mode is given; `fault` is set where there is none. */
  #number(cells: readonly string[], field: Field, mode: Mode | undefined): number {
    const cell = this.#cell(cells, field).trim();
    const unitText = this.#cell(cells, 'unit').trim();
    const rowUnit = mode === undefined || unitText === '%' ? { prefix: 0 } : parseUnit(unitText);
    if (!rowUnit) return this.#noNumber(cells, 'unit', 'is none of the units V, Ω, F and A: correct it');
    const fault = this.#quantity.scan(
      mode === undefined ? cell.replace(/\s*%$/, '') : cell,
      this.#plan.decimalMark,
      rowUnit.prefix,
    );
    if (cell === '' || fault !== undefined || STATES[this.#quantity.state] !== STATES[VALUE]) {
      return this.#noNumber(cells, field, fault ?? 'is no number, which this kind of band needs: fill it in');
    }
    const unit = this.#quantity.unit ?? rowUnit.unit;
    if (mode !== undefined && unit !== undefined && unit !== MODE_UNITS[mode]) {
      return this.#noNumber(
        cells,
        field,
        `is in ${unit}, in which ${mode} is not measured: correct the unit or the mode`,
      );
    }
    return this.#quantity.value;
  }

  #noNumber(cells: readonly string[], field: Field, fault: string): number {
    this.#failCell(cells, field, fault);
    return NaN;
  }

  #nodes(cells: readonly string[]): readonly [string, string] | undefined | null {
    const text = this.#cell(cells, 'nodes').trim();
    if (text === '') return undefined;
    const [first, second, third] = text.split(/[/|,;]|(?: (?:to|and) )/).map(cleanName);
    return first && second && third === undefined ? [first, second] : null;
  }

  /** The day on which the band was set, ISO 8601; null where it cannot be read. */
  #date(cells: readonly string[]): string | undefined | null {
    const cell = this.#cell(cells, 'set on').trim();
    if (cell === '') return undefined;
    const fault = this.#times.scan(cell, this.#plan.dateOrder);
    if (fault !== undefined || this.#times.parts === 'clock') {
      this.#failCell(cells, 'set on', fault ?? 'is no day: write it as year-month-day');
      return null;
    }
    return new Date(this.#times.time).toISOString().slice(0, 10);
  }

  #cell(cells: readonly string[], field: Field): string {
    const place = this.#places.get(field);
    return place === undefined ? '' : (cells[place] ?? '');
  }

  #failCell(cells: readonly string[], field: Field, fault: string): false {
    return this.#fail(field, `“${this.#cell(cells, field).slice(0, 60)}” in column “${field}” ${fault}.`);
  }

  #refuse(field: Field, fault: string): null {
    this.#fail(field, fault);
    return null;
  }

  #fail(field: Field | undefined, fault: string): false {
    this.fault = fault;
    this.faultColumn = field === undefined ? '' : (this.#plan.columns[this.#places.get(field) ?? -1]?.header ?? '');
    return false;
  }
}

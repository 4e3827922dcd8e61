import { BAND_KINDS, BASES, bandFault, type Band, type BandKind, type Expectation } from '../domain/band.ts';
import { MODES, MODE_UNITS, STAGES, type Mode } from '../domain/reading.ts';
import type { Field, FilePlan, Given } from '../domain/file-plan.ts';
import { ROLES, pointFromName, type DeclaredFamily } from '../domain/family.ts';
import { VALUE } from '../columns/reading-log.ts';
import { FamilyTable } from './family-table.ts';
import { noWord, orList, wrongUnit, type Fault } from './fault.ts';
import { FieldRows } from './field-rows.ts';
import { GivenLines } from './given-lines.ts';
import { readHeader } from './header-text.ts';
import { cleanName } from './names.ts';
import { NO_ANSWER } from './quantity-faults.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { parseUnit, type UnitUse } from './unit-text.ts';
import { modeOfUnit, readBasis, readKind, readMode, readRole, readStage, readYesNo } from './words.ts';

/** Turns the rows of a bands table into bands, and into the families, points and parts that it declares. */
export class BandRows extends FieldRows {
  readonly #givenLines: GivenLines;
  #given: Given = {};
  readonly #families = new FamilyTable();
  readonly #bands: Band[] = [];
  readonly #quantity = new QuantityScanner();

  constructor(plan: FilePlan) {
    super(plan);
    this.#givenLines = new GivenLines(plan);
  }

  protected read(cells: readonly string[], line: number): true | null {
    this.#given = this.#givenLines.at(line);
    const family = cleanName(this.text(cells, 'family')) || (this.#given.family ?? '');
    if (family === '') return this.failEmpty('family', 'no family');
    const point = cleanName(this.text(cells, 'point'));
    const boost = this.has(cells, 'boost') ? readYesNo(this.text(cells, 'boost')) : undefined;
    if (boost === undefined && this.has(cells, 'boost')) return this.failCell(cells, 'boost', NO_BOOST);
    const role = readRole(this.text(cells, 'role'));
    if (!role && this.has(cells, 'role')) return this.failCell(cells, 'role', noWord('role', ROLES));
    const nodes = this.#nodes(cells);
    if (nodes === null) return this.failCell(cells, 'nodes', NO_NODES);
    const band = this.#band(cells, family, point);
    if (band === null) return null;
    const rail = cleanName(this.text(cells, 'rail'));
    const part = cleanName(this.text(cells, 'part'));
    const contradiction = this.#families.declare({ family, boost, point, role, rail, part, nodes });
    if (contradiction !== undefined) return this.fail(contradiction);
    if (band) this.#bands.push(band);
    return true;
  }

  contents(): { shape: 'bands'; families: DeclaredFamily[]; bands: Band[] } {
    return { shape: 'bands', families: this.#families.families(), bands: this.#bands };
  }

  /** The row's band; undefined where it declares none, null where it cannot be read. */
  #band(cells: readonly string[], family: string, point: string): Band | undefined | null {
    const kind = this.#kind(cells);
    if (!kind) return kind;
    if (point === '') return this.failEmpty('point', 'no test point');
    const mode = this.#mode(cells, point);
    if (!mode) return null;
    const stageText = this.text(cells, 'stage');
    const stage = readStage(stageText);
    if (!stage && stageText.trim() !== '' && !/^any$/i.test(stageText.trim())) {
      return this.failCell(cells, 'stage', NO_STAGE);
    }
    const expects = this.#expectation(cells, kind, mode);
    if (!expects) return null;
    const fault = bandFault(expects);
    if (fault !== undefined) return this.fail(`${fault} Correct the numbers of this row.`);
    const author = cleanName(this.text(cells, 'author'));
    const date = this.#date(cells);
    if (date === null) return null;
    const basisText = this.text(cells, 'basis');
    const basis = basisText.trim() === '' ? 'typed in' : readBasis(basisText);
    if (!basis) return this.failCell(cells, 'basis', noWord('basis', BASES));
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

  /** The kind that the row names, or that its limits make; undefined where it has neither, null where they make none. */
  #kind(cells: readonly string[]): BandKind | undefined | null {
    const text = this.text(cells, 'kind').trim();
    if (text !== '') return readKind(text) ?? this.failCell(cells, 'kind', NO_KIND);
    const has = (field: Field): boolean => this.has(cells, field);
    if (has('nominal') && has('percent')) return 'percent';
    if (has('low')) return has('high') ? 'between' : 'at least';
    if (has('high')) return 'at most';
    if (!has('nominal') && !has('percent')) return undefined;
    return this.fail('This row has a nominal value or a percentage alone. Fill in both, or a limit.');
  }

  /** The mode that the row names, or that its unit makes; volts are those of the point: a supply's, or a part's diode drop. */
  #mode(cells: readonly string[], point: string): Mode | null {
    const text = this.text(cells, 'mode').trim();
    const use = this.#unit(cells, 'low') ?? this.#unit(cells, 'high') ?? this.#unit(cells, 'nominal');
    const mode = text === '' ? (this.#given.mode ?? use?.mode ?? modeOfUnit(use?.unit)) : readMode(text);
    if (mode) return mode;
    if (text !== '') return this.failCell(cells, 'mode', noWord('mode', MODES));
    if (use?.unit !== 'V') return this.failEmpty('mode', 'no mode, nor a unit that tells it');
    const role = readRole(this.text(cells, 'role')) ?? pointFromName(point).role;
    return role === 'part' ? 'diode' : role === 'mains' ? 'AC volts' : 'DC volts';
  }

  /** The unit of a limit: the row's, else its header's; undefined where neither says one that is known. */
  #unit(cells: readonly string[], field: Field): UnitUse | undefined {
    const text = this.text(cells, 'unit').trim();
    return text === '' || text === '%' ? readHeader(this.header(field)).unit : parseUnit(text);
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
      const mains = this.has(cells, 'nominal') ? number('nominal') : undefined;
      expects = { kind, below: number('low'), above: number('high'), ...(mains === undefined ? {} : { mains }) };
    }
    return this.fault === '' ? expects : undefined;
  }

  /** A number of the row, in the mode's SI unit, or in percent where no mode is given; `fault` is set where there is none. */
  #number(cells: readonly string[], field: Field, mode: Mode | undefined): number {
    const cell = this.text(cells, field).trim();
    const unitText = this.text(cells, 'unit').trim();
    if (mode !== undefined && unitText !== '' && unitText !== '%' && !parseUnit(unitText)) {
      return this.#noNumber(cells, 'unit', NO_UNIT);
    }
    if (cell === '') {
      this.failEmpty(field, `no ${LIMIT_WORDS[field] ?? field}`);
      return NaN;
    }
    const use = mode === undefined ? undefined : this.#unit(cells, field);
    const fault = this.#quantity.scan(
      mode === undefined ? cell.replace(/\s*%$/, '') : cell,
      this.plan.decimalMark,
      use?.prefix ?? 0,
    );
    if (fault !== undefined || this.#quantity.state !== VALUE) {
      return this.#noNumber(cells, field, fault === undefined || fault === NO_ANSWER ? NO_LIMIT : fault);
    }
    const unit = this.#quantity.unit ?? use?.unit;
    if (mode !== undefined && unit !== undefined && unit !== MODE_UNITS[mode]) {
      return this.#noNumber(cells, field, wrongUnit(unit, mode));
    }
    return this.#quantity.value;
  }

  #noNumber(cells: readonly string[], field: Field, fault: Fault): number {
    this.failCell(cells, field, fault);
    return NaN;
  }

  #nodes(cells: readonly string[]): readonly [string, string] | undefined | null {
    const text = this.text(cells, 'nodes').trim();
    if (text === '') return undefined;
    const [first, second, third] = text.split(/[/|,;]|(?: (?:to|and) )/).map(cleanName);
    return first && second && third === undefined ? [first, second] : null;
  }

  /** The day on which the band was set, ISO 8601; null where it cannot be read. */
  #date(cells: readonly string[]): string | undefined | null {
    if (!this.has(cells, 'set on')) return undefined;
    const day = this.moment(cells, 'set on');
    return day === null ? null : new Date(day).toISOString().slice(0, 10);
  }
}

const NO_BOOST: Fault = { wrong: 'is neither yes nor no', remedy: 'Write yes or no.' };
const NO_NODES: Fault = { wrong: 'does not name two nodes', remedy: 'Write them as one/other.' };
const NO_KIND: Fault = { wrong: 'is no kind of band', remedy: `Write ${orList(BAND_KINDS)}.` };
const NO_STAGE: Fault = {
  wrong: 'is no stage that is known',
  remedy: `Write ${orList(STAGES)}, or leave it empty for any.`,
};
const NO_UNIT: Fault = { wrong: 'is none of the units V, Ω, F and A', remedy: 'Correct the unit.' };
const NO_LIMIT: Fault = { wrong: 'is no number, which this kind of band needs', remedy: 'Fill in the number.' };
const LIMIT_WORDS: Readonly<Partial<Record<Field, string>>> = {
  low: 'low limit',
  high: 'high limit',
  nominal: 'nominal value',
  percent: 'percentage',
};

import { emptyLog, takeRows } from '../columns/append.ts';
import type { Dictionary } from '../columns/dictionary.ts';
import { LogBuilder } from '../columns/log-builder.ts';
import { BEEP, BLANK, NO_BEEP, type ReadingLog } from '../columns/reading-log.ts';
import type { ColumnUse, Field, FilePlan } from '../domain/file-plan.ts';
import type { Unit } from '../domain/quantity.ts';
import {
  MODE_UNITS,
  MODES,
  SPECIMENS,
  STAGES,
  isPowered,
  type Mode,
  type Specimen,
  type Stage,
} from '../domain/reading.ts';
import { MAX_METERS, MAX_POINTS } from './caps.ts';
import { DoubtfulRows } from './doubtful-rows.ts';
import { readHeader } from './header-text.ts';
import { BAD_NAME, NameColumn, NO_NAME, SUMMARY_NAME } from './name-column.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import type { RowTaker } from './row-taker.ts';
import { RowTimes } from './row-times.ts';
import type { SetAsideList } from './set-aside-list.ts';
import { UnitColumn } from './unit-column.ts';
import { parseUnit } from './unit-text.ts';
import { NO_WORD, WordColumn } from './word-column.ts';
import { modeOfUnit, readMode, readSpecimen, readStage } from './words.ts';

/** A column of readings as the plan and its header have it. */
interface ReadingColumn {
  readonly index: number;
  readonly mode: number;
  readonly unit: Unit | undefined;
  readonly prefix: number;
  readonly point: number;
  readonly stage: number;
}

const NONE = -1;
const CONTINUITY = MODES.indexOf('continuity');
const DC_VOLTS = MODES.indexOf('DC volts');
const DIODE = MODES.indexOf('diode');
const MODE_UNIT = MODES.map((mode) => MODE_UNITS[mode]);
const POWERED = STAGES.map(isPowered);

/** Turns rows into readings by a plan. A row is taken whole or not at all. */
export class ReadingRows implements RowTaker {
  /** Why the last row was not taken, as a sentence. */
  fault = '';
  /** The header of the column that is meant, or empty. */
  faultColumn = '';
  readonly #plan: FilePlan;
  readonly #builder = new LogBuilder();
  readonly #file: number;
  readonly #times: RowTimes;
  readonly #repairs: NameColumn;
  readonly #families: NameColumn;
  readonly #points: NameColumn;
  readonly #meters: NameColumn;
  readonly #stages: WordColumn<Stage>;
  readonly #modes: WordColumn<Mode>;
  readonly #specimens: WordColumn<Specimen>;
  readonly #units: UnitColumn;
  #readings: readonly ReadingColumn[];
  readonly #quantity = new QuantityScanner();
  readonly #checks: Int32Array[][] = [];
  readonly #doubtful = new DoubtfulRows();
  #doubtfulColumn = NONE;
  #log: ReadingLog = emptyLog();
  /** Readings in volts whose mode nobody stated, by what was taken for it. */
  #guessedDcVolts = 0;
  #guessedDiode = 0;

  constructor(plan: FilePlan, file: string) {
    const { names } = this.#builder;
    const { given } = plan;
    const place = (field: Field): number => plan.columns.findIndex((column) => column.field === field);
    this.#plan = plan;
    this.#file = names.files.intern(file);
    this.#times = new RowTimes(plan);
    this.#repairs = new NameColumn(place('repair'), names.repairs, given.repair, Infinity);
    this.#families = new NameColumn(place('family'), names.families, given.family ?? '', MAX_POINTS);
    this.#points = new NameColumn(place('point'), names.points, given.point, MAX_POINTS);
    this.#meters = new NameColumn(place('meter'), names.meters, given.meter ?? '', MAX_METERS);
    this.#stages = new WordColumn(place('stage'), STAGES, readStage, given.stage);
    this.#modes = new WordColumn(place('mode'), MODES, readMode, given.mode);
    this.#specimens = new WordColumn(place('specimen'), SPECIMENS, readSpecimen, given.specimen ?? 'board');
    this.#units = new UnitColumn(place('unit'));
    this.#readings = readingColumns(plan, [], names.points);
  }

  useUnits(cells: readonly string[]): void {
    this.#readings = readingColumns(this.#plan, cells, this.#builder.names.points);
  }

  /** Takes a row as long as the header. @returns whether it was taken; if not, `fault` says why */
  take(cells: readonly string[], line: number): boolean {
    const start = this.#builder.count;
    this.fault = '';
    this.#doubtfulColumn = NONE;
    if (!this.#takeReadings(cells, line)) {
      this.#builder.count = start;
      return false;
    }
    if (this.#doubtfulColumn !== NONE) this.#doubtful.add(line, this.#header(this.#doubtfulColumn), cells);
    return true;
  }

  /** Rows with a number that the whole file could not settle go to `setAside`. */
  finish(setAside: SetAsideList): void {
    const log = this.#builder.finish();
    const keep = this.#doubtful.settle(log, setAside);
    this.#log = keep ? takeRows(log, keep) : log;
  }

  contents(): { shape: 'readings'; log: ReadingLog } {
    return { shape: 'readings', log: this.#log };
  }

  notices(): string[] {
    const { zoned } = this.#times;
    return [
      ...(zoned > 0 ? [`${zoned} times name a time zone; the time was kept as written, the zone left off.`] : []),
      ...(this.#guessedDcVolts > 0
        ? [`${this.#guessedDcVolts} readings in volts under power name no mode: read as DC volts.`]
        : []),
      ...(this.#guessedDiode > 0
        ? [`${this.#guessedDiode} readings in volts without power name no mode: read as diode.`]
        : []),
    ];
  }

  #takeReadings(cells: readonly string[], line: number): boolean {
    const time = this.#times.read(cells);
    if (this.#times.fault !== undefined) return this.#failCell(cells, this.#times.faultColumn, this.#times.fault);
    const repair = this.#repairs.code(cells);
    const family = this.#families.code(cells);
    const point = this.#points.code(cells);
    const meter = this.#meters.code(cells);
    if (repair < 0 || family < 0 || point < NO_NAME || meter < 0) return this.#failName(cells);
    const stage = this.#stages.code(cells);
    const mode = this.#modes.code(cells);
    const specimen = this.#specimens.code(cells);
    if (stage < NO_WORD || mode < NO_WORD || specimen < 0) return this.#failWord(cells);
    const readings = this.#readings;
    const single = readings.length === 1;
    const start = this.#builder.count;
    for (const column of readings) {
      const cell = cells[column.index] ?? '';
      if (!single && (cell === '' || cell.trim() === '')) continue;
      const read = this.#takeReading(
        cells,
        cell,
        column,
        line,
        time,
        repair,
        family,
        point,
        stage,
        mode,
        specimen,
        meter,
      );
      if (!read) return false;
    }
    if (this.#builder.count > start) return true;
    return this.#fail(
      '',
      readings.length === 0
        ? NO_READING_COLUMN
        : 'No column of this row holds a reading: fill one in, or let the row go.',
    );
  }

  #takeReading(
    cells: readonly string[],
    cell: string,
    column: ReadingColumn,
    line: number,
    time: number,
    repair: number,
    family: number,
    rowPoint: number,
    rowStage: number,
    rowMode: number,
    specimen: number,
    meter: number,
  ): boolean {
    const point = column.point >= 0 ? column.point : rowPoint;
    if (point < 0)
      return this.#fail(
        this.#headerOf('point'),
        'This row names no test point: fill it in, or state one for the file.',
      );
    const stage = column.stage >= 0 ? column.stage : rowStage;
    if (stage < 0)
      return this.#fail(this.#headerOf('stage'), 'This row names no stage: fill it in, or state one for the file.');
    const quantity = this.#quantity;
    const rowUnit = this.#units.use(cells);
    const prefix =
      rowUnit !== null && (rowUnit.unit !== undefined || rowUnit.prefix !== 0) ? rowUnit.prefix : column.prefix;
    const fault = quantity.scan(cell, this.#plan.decimalMark, prefix);
    if (fault !== undefined) return this.#failCell(cells, column.index, fault);
    if (rowUnit === null && quantity.unit === undefined && quantity.state !== BLANK) return this.#failUnit(cells);
    const unit = quantity.unit ?? rowUnit?.unit ?? column.unit;
    const stated = column.mode >= 0 ? column.mode : rowMode;
    const mode = stated >= 0 ? stated : this.#modeOf(quantity.mode ?? rowUnit?.mode, unit, stage);
    if (mode < 0) return this.#fail(this.#header(column.index), NO_MODE);
    if (unit !== undefined && MODE_UNIT[mode] !== unit && quantity.state !== BLANK) {
      const fits = `is in ${unit}, in which ${MODES[mode]!} is not measured: correct the unit or the mode`;
      return this.#failCell(cells, column.index, fits);
    }
    if (quantity.loneGroup) this.#doubtfulColumn = column.index;
    else this.#doubtful.learn(quantity.showsGroups, quantity.showsMark);
    this.#builder.push(
      time,
      quantity.value,
      quantity.prefix,
      quantity.decimals,
      quantity.state,
      specimen,
      repair,
      this.#check(family, point, stage, mode),
      meter,
      this.#file,
      line,
    );
    return true;
  }

  /** The mode of a reading for which no column states one: its unit's; for plain volts, direct current under power and a diode's without. */
  #modeOf(named: Mode | undefined, unit: Unit | undefined, stage: number): number {
    const mode = named ?? modeOfUnit(unit);
    if (mode !== undefined) return MODES.indexOf(mode);
    const { state } = this.#quantity;
    if (state === BEEP || state === NO_BEEP) return CONTINUITY;
    if (unit !== 'V') return NONE;
    if (POWERED[stage]) this.#guessedDcVolts += 1;
    else this.#guessedDiode += 1;
    return POWERED[stage] ? DC_VOLTS : DIODE;
  }

  #check(family: number, point: number, stage: number, mode: number): number {
    const ofFamily = (this.#checks[family] ??= []);
    const ofPoint = (ofFamily[point] ??= new Int32Array(8 * STAGES.length).fill(NONE));
    const place = 8 * stage + mode;
    const known = ofPoint[place]!;
    return known >= 0 ? known : (ofPoint[place] = this.#builder.names.checks.intern(family, point, stage, mode));
  }

  #header(index: number): string {
    return this.#plan.columns[index]?.header ?? '';
  }

  #fail(column: string, fault: string): false {
    this.faultColumn = column;
    this.fault = fault;
    return false;
  }

  #failCell(cells: readonly string[], index: number, fault: string): false {
    const header = this.#header(index);
    const where = header === '' ? `column ${index + 1}` : `column “${header}”`;
    return this.#fail(header, `“${shorten(cells[index] ?? '')}” in ${where} ${fault}.`);
  }

  #failName(cells: readonly string[]): false {
    for (const [field, column] of [
      ['repair', this.#repairs],
      ['point', this.#points],
      ['family', this.#families],
      ['meter', this.#meters],
    ] as const) {
      const code = column.code(cells);
      const index = this.#plan.columns.findIndex((use) => use.field === field);
      if (code === SUMMARY_NAME) return this.#failCell(cells, index, 'labels a summary: let the row go');
      if (code === BAD_NAME) return this.#failCell(cells, index, column.fault);
    }
    return this.#fail(this.#headerOf('repair'), 'This row names no repair: fill it in, or state one for the file.');
  }

  #failWord(cells: readonly string[]): false {
    const words = [
      ['stage', this.#stages, STAGES],
      ['mode', this.#modes, MODES],
      ['specimen', this.#specimens, SPECIMENS],
    ] as const;
    for (const [field, column, list] of words) {
      const index = this.#plan.columns.findIndex((use) => use.field === field);
      if (column.code(cells) < NO_WORD)
        return this.#failCell(cells, index, `is no ${field} that is known: write ${orList(list)}`);
    }
    return false;
  }

  #failUnit(cells: readonly string[]): false {
    const index = this.#plan.columns.findIndex((use) => use.field === 'unit');
    return this.#failCell(cells, index, 'is none of the units V, Ω, F and A: correct it, or let the row go');
  }

  #headerOf(field: Field): string {
    return this.#plan.columns.find((use) => use.field === field)?.header ?? '';
  }
}

const NO_READING_COLUMN = 'No column of this file is read as a reading: choose one in the preview.';
const NO_MODE = 'Neither a column nor a unit says what was measured here: fill in the mode, or state one for the file.';

function readingColumns(plan: FilePlan, unitCells: readonly string[], points: Dictionary): ReadingColumn[] {
  return plan.columns.flatMap((use, index) =>
    use.field === 'reading' ? [readingColumn(use, index, unitCells[index], points)] : [],
  );
}

function readingColumn(use: ColumnUse, index: number, unitCell: string | undefined, points: Dictionary): ReadingColumn {
  const unit = readHeader(use.header).unit ?? (unitCell === undefined ? undefined : parseUnit(unitCell));
  return {
    index,
    mode: use.mode === undefined ? NONE : MODES.indexOf(use.mode),
    unit: use.mode === undefined ? unit?.unit : MODE_UNITS[use.mode],
    prefix: use.prefix ?? unit?.prefix ?? 0,
    point: use.point === undefined ? NONE : points.intern(use.point),
    stage: use.stage === undefined ? NONE : STAGES.indexOf(use.stage),
  };
}

function shorten(text: string): string {
  return text.length > 60 ? `${text.slice(0, 60)}…` : text;
}

function orList(words: readonly string[]): string {
  return `${words.slice(0, -1).join(', ')} or ${words.at(-1)!}`;
}

import { emptyLog, takeRows } from '../columns/append.ts';
import type { Dictionary } from '../columns/dictionary.ts';
import { LogBuilder } from '../columns/log-builder.ts';
import { BEEP, BLANK, NO_BEEP, VALUE, type ReadingLog } from '../columns/reading-log.ts';
import { countText } from '../domain/count-text.ts';
import type { Field, FilePlan, Given } from '../domain/file-plan.ts';
import type { Unit } from '../domain/quantity.ts';
import {
  MODE_UNITS,
  MODES,
  SPECIMENS,
  STAGES,
  STATES,
  isPowered,
  type Mode,
  type Specimen,
  type Stage,
  type State,
} from '../domain/reading.ts';
import { MAX_METERS, MAX_POINTS } from './caps.ts';
import { DoubtfulRows } from './doubtful-rows.ts';
import { cellReason, columnText, noWord, otherMode, wrongUnit, type Fault } from './fault.ts';
import { GivenLines } from './given-lines.ts';
import { BAD_NAME, NameColumn, NO_NAME, SUMMARY_NAME } from './name-column.ts';
import { beyondMeters } from './quantity-faults.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { PrefixColumn } from './prefix-column.ts';
import { NONE, readingColumns, type ReadingColumn } from './reading-columns.ts';
import type { RowTaker } from './row-taker.ts';
import { RowTimes } from './row-times.ts';
import type { SetAsideList } from './set-aside-list.ts';
import { STATUSES, statusReader, type Status } from './status-words.ts';
import { UnitColumn } from './unit-column.ts';
import { NO_WORD, WordColumn } from './word-column.ts';
import { modeOfUnit, readMode, readSpecimen, readStage } from './words.ts';

const CONTINUITY = MODES.indexOf('continuity');
const DC_VOLTS = MODES.indexOf('DC volts');
const DIODE = MODES.indexOf('diode');
const MODE_UNIT = MODES.map((mode) => MODE_UNITS[mode]);
const POWERED = STAGES.map(isPowered);

/** Turns rows into readings by a plan. A row is taken whole or not at all. */
export class ReadingRows implements RowTaker {
  /** Why the last row was not taken, as sentences. */
  fault = '';
  /** The header of the column that is meant, or empty. */
  faultColumn = '';
  readonly #plan: FilePlan;
  readonly #builder = new LogBuilder();
  readonly #file: number;
  readonly #givenLines: GivenLines;
  #given: Given | undefined;
  readonly #times: RowTimes;
  readonly #repairs: NameColumn;
  readonly #families: NameColumn;
  readonly #points: NameColumn;
  readonly #meters: NameColumn;
  readonly #stages: WordColumn<Stage>;
  readonly #modes: WordColumn<Mode>;
  readonly #specimens: WordColumn<Specimen>;
  readonly #units: UnitColumn;
  readonly #prefixes: PrefixColumn;
  readonly #statuses: WordColumn<Status>;
  #givenMode = NO_WORD;
  #readings: readonly ReadingColumn[];
  readonly #quantity: QuantityScanner;
  readonly #checks: Int32Array[][] = [];
  readonly #doubtful = new DoubtfulRows();
  #doubtfulColumn = NONE;
  #log: ReadingLog = emptyLog();
  /** Readings in volts whose mode nobody stated, by what was taken for it. */
  #guessedDcVolts = 0;
  #guessedDiode = 0;

  constructor(plan: FilePlan, file: string) {
    const { names } = this.#builder;
    const place = (field: Field): number => plan.columns.findIndex((column) => column.field === field);
    const nameColumn = (field: Field, dictionary: Dictionary, limit: number): NameColumn =>
      new NameColumn(place(field), dictionary, limit, plan.columns[place(field)]?.header);
    this.#plan = plan;
    this.#quantity = new QuantityScanner(plan.overRangeMarks);
    this.#file = names.files.intern(file);
    this.#givenLines = new GivenLines(plan);
    this.#times = new RowTimes(plan);
    this.#repairs = nameColumn('repair', names.repairs, Infinity);
    this.#families = nameColumn('family', names.families, MAX_POINTS);
    this.#points = nameColumn('point', names.points, MAX_POINTS);
    this.#meters = nameColumn('meter', names.meters, MAX_METERS);
    this.#stages = new WordColumn(place('stage'), STAGES, readStage);
    this.#modes = new WordColumn(place('mode'), MODES, readMode);
    this.#specimens = new WordColumn(place('specimen'), SPECIMENS, readSpecimen);
    this.#units = new UnitColumn(place('unit'));
    this.#prefixes = new PrefixColumn(place('prefix'));
    const status = plan.columns[place('status')];
    this.#statuses = new WordColumn(place('status'), STATUSES, statusReader(status?.header ?? ''));
    this.#readings = readingColumns(plan, [], names.points);
  }

  useUnits(cells: readonly string[]): void {
    this.#readings = readingColumns(this.#plan, cells, this.#builder.names.points);
  }

  /** Takes a row as long as the header. @returns whether it was taken; if not, `fault` says why */
  take(cells: readonly string[], line: number): boolean {
    const start = this.#builder.count;
    const given = this.#givenLines.at(line);
    if (given !== this.#given) this.#useGiven(given);
    this.fault = '';
    this.#doubtfulColumn = NONE;
    if (!this.#takeReadings(cells, line)) {
      this.#builder.count = start;
      return false;
    }
    if (this.#doubtfulColumn !== NONE) {
      this.#doubtful.add(line, this.#header(this.#doubtfulColumn), this.#doubtfulColumn, cells);
    }
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
    const notice = (count: number, text: string): string[] =>
      count === 0 ? [] : [`${countText(count, this.#plan.decimalMark)} ${text}`];
    return [
      ...notice(this.#times.zoned, 'times name a time zone; the time was kept as written, the zone left off.'),
      ...notice(this.#times.carried, 'times without a date were read on the day of the row above.'),
      ...notice(this.#guessedDcVolts, 'readings in volts under power name no mode: read as DC volts.'),
      ...notice(this.#guessedDiode, 'readings in volts without power name no mode: read as diode.'),
    ];
  }

  #useGiven(given: Given): void {
    this.#given = given;
    this.#times.useGiven(given);
    this.#repairs.useFallback(given.repair);
    this.#families.useFallback(given.family ?? '');
    this.#points.useFallback(given.point);
    this.#meters.useFallback(given.meter ?? '');
    this.#stages.useFallback(given.stage);
    this.#givenMode = given.mode === undefined ? NO_WORD : MODES.indexOf(given.mode);
    this.#specimens.useFallback(given.specimen ?? 'board');
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
    const isWordUnknown = stage < NO_WORD || mode < NO_WORD || specimen < 0;
    if (isWordUnknown || this.#statuses.code(cells) < NO_WORD) return this.#failWord(cells);
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
        : 'No column of this row holds a reading. Fill one in, or let the row go.',
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
    if (point < 0) return this.#failEmpty('point', 'no test point');
    const stage = column.stage >= 0 ? column.stage : rowStage;
    if (stage < 0) return this.#failEmpty('stage', 'no stage');
    const quantity = this.#quantity;
    const rowUnit = (column.units ?? this.#units).use(cells);
    const scale = this.#prefixes.power(cells);
    if (scale === null) return this.#failPrefix(cells, NO_PREFIX);
    const stays = rowUnit !== null && (rowUnit.unit !== undefined || rowUnit.prefix !== 0);
    const beside = stays ? rowUnit.prefix : column.prefix;
    if (scale !== 0 && beside !== 0 && scale !== beside) return this.#failPrefix(cells, TWO_PREFIXES);
    const prefix = scale === 0 ? beside : scale;
    const fault = quantity.scan(cell, this.#plan.decimalMark, prefix) ?? beyondMeters(quantity.value);
    if (fault !== undefined) return this.#failCell(cells, column.index, fault);
    if (rowUnit === null && quantity.unit === undefined && quantity.state !== BLANK) return this.#failUnit(cells);
    const unit = quantity.unit ?? rowUnit?.unit ?? column.unit;
    this.#useStatus(cells);
    const stated = column.mode >= 0 ? column.mode : rowMode;
    const named = quantity.mode ?? rowUnit?.mode;
    if (stated >= 0 && named !== undefined && MODES[stated] !== named && unit === 'V' && MODE_UNIT[stated] === 'V')
      return this.#failCell(cells, column.index, otherMode(named, MODES[stated]!));
    const mode = stated >= 0 ? stated : this.#modeOf(named, unit, stage);
    if (mode < 0) return this.#failCell(cells, column.index, NO_MODE);
    if (unit !== undefined && MODE_UNIT[mode] !== unit && quantity.state !== BLANK) {
      return this.#failCell(cells, column.index, wrongUnit(unit, MODES[mode]!));
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
    if (named !== undefined) return MODES.indexOf(named);
    const given = this.#givenMode;
    if (given >= 0 && (unit === undefined || MODE_UNIT[given] === unit)) return given;
    const mode = modeOfUnit(unit);
    if (mode !== undefined) return MODES.indexOf(mode);
    const { state } = this.#quantity;
    if (state === BEEP || state === NO_BEEP) return CONTINUITY;
    if (unit !== 'V') return NONE;
    if (POWERED[stage]) this.#guessedDcVolts += 1;
    else this.#guessedDiode += 1;
    return POWERED[stage] ? DC_VOLTS : DIODE;
  }

  /** A status that says over-range, beep or the like takes the place of what the value's cell shows beside it. */
  #useStatus(cells: readonly string[]): void {
    const code = this.#statuses.code(cells);
    if (code < 1) return;
    const quantity = this.#quantity;
    const isValue = quantity.state === VALUE || quantity.state === BLANK;
    if (!isValue) return;
    quantity.state = STATES.indexOf(STATUSES[code] as State);
    quantity.value = NaN;
    quantity.loneGroup = false;
  }

  #failPrefix(cells: readonly string[], fault: Fault): false {
    return this.#failCell(
      cells,
      this.#plan.columns.findIndex((use) => use.field === 'prefix'),
      fault,
    );
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

  #failCell(cells: readonly string[], index: number, fault: Fault): false {
    const header = this.#header(index);
    return this.#fail(header, cellReason(cells[index] ?? '', header, index, fault));
  }

  /** @param what - what the row does not name, as in “no stage” */
  #failEmpty(field: Field, what: string): false {
    const index = this.#plan.columns.findIndex((use) => use.field === field);
    if (index < 0) return this.#fail('', `This row names ${what}, and no column does. State it for the file.`);
    const header = this.#header(index);
    return this.#fail(
      header,
      `This row names ${what} in ${columnText(header, index)}. Fill it in, or state it for the file.`,
    );
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
      if (code === SUMMARY_NAME) return this.#failCell(cells, index, SUMMARY);
      if (code === BAD_NAME) return this.#failCell(cells, index, column.fault);
    }
    return this.#failEmpty('repair', 'no repair');
  }

  #failWord(cells: readonly string[]): false {
    const words = [
      ['stage', this.#stages, STAGES],
      ['mode', this.#modes, MODES],
      ['specimen', this.#specimens, SPECIMENS],
      ['status', this.#statuses, STATUSES],
    ] as const;
    for (const [field, column, list] of words) {
      const index = this.#plan.columns.findIndex((use) => use.field === field);
      if (column.code(cells) >= NO_WORD) continue;
      return this.#failCell(cells, index, noWord(field, list));
    }
    return false;
  }

  #failUnit(cells: readonly string[]): false {
    const index = this.#plan.columns.findIndex((use) => use.field === 'unit');
    return this.#failCell(cells, index, NO_UNIT);
  }
}

const NO_READING_COLUMN = 'No column of this file is read as a reading. Choose one in the preview.';
const SUMMARY: Fault = { wrong: 'labels a summary', remedy: 'Let the row go.' };
const NO_MODE: Fault = {
  wrong: 'has no unit, and nothing else says what was measured',
  remedy: 'Add the unit, or state the mode for the file.',
};
const NO_PREFIX: Fault = { wrong: 'is no prefix of a unit', remedy: 'Write k, M, m, µ, n or p, or leave it empty.' };
const TWO_PREFIXES: Fault = {
  wrong: 'is another prefix than that of the unit',
  remedy: 'Leave one of the two empty.',
};
const NO_UNIT: Fault = {
  wrong: 'is none of the units V, Ω, F and A',
  remedy: 'Correct the unit, or let the row go.',
};

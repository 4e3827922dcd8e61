import type { ColumnUse, Field } from '../domain/file-plan.ts';
import type { Shape } from '../domain/import-record.ts';
import type { ColumnValues } from './column-values.ts';
import { fieldOfHeader } from './field-names.ts';
import { readHeader } from './header-text.ts';
import { namesOverRange, statusReader } from './status-words.ts';
import { parseUnit, type UnitUse } from './unit-text.ts';
import { modeOfUnit, plainWords } from './words.ts';

/** Columns of a file and the shape that they make. */
export interface ColumnsGuess {
  readonly shape: Shape;
  readonly columns: readonly ColumnUse[];
}

interface Guess {
  readonly field: Field;
  readonly reason: string;
  readonly doubtful?: boolean;
}

const READING_FIELDS: ReadonlySet<Field> = new Set([
  'time', 'date', 'clock', 'elapsed', 'repair', 'family', 'point', 'stage', 'mode', 'specimen', 'reading', 'unit', 'meter',
]); // prettier-ignore
const REPAIR_FIELDS: ReadonlySet<Field> = new Set([
  'repair', 'family', 'complaint', 'received', 'returned', 'outcome', 'replaced', 'comeback of', 'bench',
]); // prettier-ignore
/** What only a repairs table tells. */
const REPAIR_STORY: ReadonlySet<Field> = new Set([
  'complaint', 'received', 'returned', 'outcome', 'replaced', 'comeback of',
]); // prettier-ignore
const BAND_FIELDS: ReadonlySet<Field> = new Set([
  'family', 'boost', 'point', 'role', 'rail', 'part', 'nodes', 'stage', 'mode', 'kind', 'low', 'high', 'nominal', 'percent',
  'unit', 'basis', 'author', 'set on',
]); // prettier-ignore

const METER_FIELDS: ReadonlySet<Field> = new Set([
  'meter', 'mode', 'range limit', 'unit', 'resolution', 'percent', 'counts', 'over-range mark', 'calibration due',
]); // prettier-ignore

/** Most of a column's filled cells. */
const MOST = 0.8;
/** Different names of a column that are compared by their endings. */
const COMPARED = 200;

/**
 * What each column of a file is read as, by its header's words, its unit and its values, and what the whole makes.
 * @param header - the header's cells, empty texts where the file has none
 * @param units - the line of units under it
 */
export function guessColumns(
  header: readonly string[],
  units: readonly string[] | undefined,
  values: readonly ColumnValues[],
): ColumnsGuess {
  const names = header.map((text, index) => fieldNamed(text, values[index]!));
  const has = (field: Field): boolean => names.includes(field);
  const limits = (['low', 'high', 'nominal', 'percent'] as const).filter(has).length;
  // A log may carry the limits that its logger knew; it is a log all the same.
  const isLog = has('reading') || has('time');
  if ((has('family') || has('point')) && limits > 0 && (has('kind') || (limits >= 2 && !isLog))) {
    return { shape: 'bands', columns: byName(header, names, BAND_FIELDS) };
  }
  if (!isLog && isMeterTable(names)) {
    return { shape: 'meters', columns: byName(header, names, METER_FIELDS) };
  }
  const readings = readingColumns(header, units, names, values);
  const wide = readings.filter((use) => use.field === 'reading');
  if (has('repair') && isRepairsTable(names, wide)) {
    return { shape: 'repairs', columns: byName(header, names, REPAIR_FIELDS) };
  }
  return { shape: wide.length > 0 ? 'readings' : 'unknown', columns: readings };
}

/** The field that a header names; `in` and `out` may head days of a repair, but not readings. */
function fieldNamed(text: string, column: ColumnValues): Field | undefined {
  const name = fieldOfHeader(text);
  if (name === undefined || !REPAIR_STORY.has(name)) return name;
  const areNumbers = column.numbers >= MOST && column.days + column.moments < MOST && name !== 'comeback of';
  return areNumbers || readHeader(text).unit !== undefined ? undefined : name;
}

/** Whether columns state how accurate meters are, or when they are due for calibration. */
function isMeterTable(names: readonly (Field | undefined)[]): boolean {
  const has = (field: Field): boolean => names.includes(field);
  const statesAccuracy = has('range limit') && (has('percent') || has('counts')) && (has('meter') || has('mode'));
  return statesAccuracy || (has('meter') && has('calibration due'));
}

/** Whether columns tell of repairs more than of readings. @param wide - the columns that may hold readings */
function isRepairsTable(names: readonly (Field | undefined)[], wide: readonly ColumnUse[]): boolean {
  const told = names.filter(isStory).length;
  if (wide.length === 0) return told >= 2 || (told === 1 && !names.includes('point'));
  const isSure = wide.some((use) => !use.doubtful);
  return !names.includes('reading') && (isSure ? told >= 2 && wide.length < told : wide.length <= told);
}

/** Tables of repairs, bands and meters: by the names of their columns alone. */
function byName(
  header: readonly string[],
  names: readonly (Field | undefined)[],
  fields: ReadonlySet<Field>,
): ColumnUse[] {
  return header.map((text, index) => {
    const name = names[index];
    if (name === undefined || !fields.has(name)) return { header: text, ...ignored('has a name that is not known') };
    if (names.indexOf(name) < index) return { header: text, ...ignored(`is a second column of ${name}`) };
    return { header: text, field: name, reason: `is named “${text}”`, doubtful: false };
  });
}

function readingColumns(
  header: readonly string[],
  units: readonly string[] | undefined,
  names: readonly (Field | undefined)[],
  values: readonly ColumnValues[],
): ColumnUse[] {
  const guesses = header.map((text, index): Guess | undefined => {
    const name = names[index];
    return name === undefined ? undefined : checkedName(name, text, values[index]!, names);
  });
  const has = (field: Field): boolean => guesses.some((guess) => guess?.field === field);
  const fill = (field: Field, fits: (column: ColumnValues, text: string) => boolean, reason: string): void => {
    if (has(field)) return;
    const index = header.findIndex(
      (text, at) => guesses[at] === undefined && values[at]!.filled > 0 && fits(values[at]!, text),
    );
    if (index >= 0) guesses[index] = { field, reason, doubtful: header[index] !== '' };
  };
  const board = header.findIndex(
    (text, at) => guesses[at] === undefined && /^(?:board|pcb|board id|board no|serial)$/.test(plainWords(text)),
  );
  if (board >= 0) guesses[board] = boardGuess(values[board]!.distinct, has('repair'), has('family'));
  if (!has('time') && !has('date')) {
    fill('time', (column) => column.moments >= MOST, 'holds days with times');
    if (!has('time')) fill('date', (column) => column.days >= MOST, 'holds days');
    if (!has('time') && !has('clock')) fill('clock', (column) => column.clocks >= MOST, 'holds times of day');
  } else if (!has('time') && !has('clock')) {
    const index = header.findIndex((_, at) => guesses[at] === undefined && values[at]!.clocks >= MOST);
    if (index >= 0) guesses[index] = { field: 'clock', reason: 'holds times of day beside a column of days' };
  }
  if (!has('point')) {
    const part = names.indexOf('part');
    if (part >= 0) guesses[part] = { field: 'point', reason: `is named “${header[part]!}”`, doubtful: true };
  }
  fill('unit', (column) => column.units >= MOST, 'holds units');
  fill('stage', (column) => column.stages >= MOST && column.distinct.length > 1, 'holds stages');
  fill('mode', (column) => column.modes >= MOST && column.distinct.length > 1, 'holds modes');
  const qualifier = (field: 'status' | 'prefix', fits: (column: ColumnValues, text: string) => boolean): void => {
    const index = header.findIndex((text, at) => guesses[at] === undefined && fits(values[at]!, text));
    if (index >= 0) guesses[index] = { field, reason: `holds a ${field} beside each value` };
  };
  qualifier('status', isStatus);
  qualifier('prefix', (column) => column.prefixes >= MOST);
  const plain = has('reading');
  const uses = header.map((text, index): ColumnUse => {
    const guess = guesses[index];
    if (guess?.field === 'reading') return readingUse(text, units?.[index], guess, undefined);
    if (guess) return { header: text, doubtful: false, ...guess };
    const measured = readHeader(text);
    const share = values[index]!.numbers + values[index]!.quantities;
    const isMeasured = share >= MOST;
    const saysUnit = measured.mode !== undefined || measured.unit?.unit !== undefined;
    if (!plain && saysUnit && (share > 0 || values[index]!.filled === 0)) {
      const point = has('point') ? undefined : measured.name;
      return readingUse(text, units?.[index], { field: 'reading', reason: 'has a unit or a mode in its name' }, point);
    }
    if (!plain && isMeasured && !has('point') && has('repair') && text !== '' && !isStory(names[index])) {
      return readingUse(
        text,
        units?.[index],
        { field: 'reading', reason: 'holds readings of one point', doubtful: true },
        measured.name,
      );
    }
    return { header: text, ...bearing(text, values[index]!) };
  });
  if (!uses.some((use) => use.field === 'reading')) {
    const index = uses.findIndex(
      (use, at) =>
        use.field === 'ignored' && !isStory(names[at]) && values[at]!.numbers + values[at]!.quantities >= MOST,
    );
    if (index >= 0 && !has('repair')) {
      const first = { field: 'reading', reason: 'is the first column of numbers', doubtful: true } as const;
      uses[index] = readingUse(header[index]!, units?.[index], first, undefined);
    }
  }
  return firstOfEach(uses);
}

function isStory(name: Field | undefined): boolean {
  return name !== undefined && REPAIR_STORY.has(name);
}

/** Whether a column holds what a meter says beside its numbers: over-range among words that let the number stand, or flags of it. */
function isStatus(column: ColumnValues, text: string): boolean {
  const isOver = (cell: string): boolean => {
    const status = statusReader(text)(cell);
    return status !== undefined && status !== 'ok';
  };
  if (namesOverRange(text))
    return column.filled > 0 && column.distinct.every((cell) => statusReader(text)(cell) !== undefined);
  return column.statuses >= MOST && column.numbers < MOST && column.distinct.some(isOver);
}

/** Headers of numbers and words that change no reading: surroundings, counters, limits, statistics, people. */
const NO_BEARING =
  /\b(?:temp|temperature|humidity|rh|hz|freq|frequency|index|count|sample|seq|channel|ch|row|no|nr|line|record|min|max|avg|average|mean|std|limit|low|high|lower|upper|tol|tolerance|nominal|range|counts|technician|tech|operator|by|user|who|note|notes|remark|remarks|comment|comments|price|cost|hours|serial)\b|[#°%]/i;

/** What becomes of a column that no field takes, and why; one that holds numbers or readings under an unknown name is asked about. */
function bearing(text: string, column: ColumnValues): Omit<ColumnUse, 'header'> {
  if (column.filled === 0) return ignored('is empty');
  if (column.counts) return ignored('counts the rows');
  if (column.distinct.length === 1 && column.filled > 2)
    return ignored(`says “${column.distinct[0]!.slice(0, 40)}” in each row`);
  if (NO_BEARING.test(text)) return ignored('has a name that qualifies no reading');
  if (column.numbers + column.quantities >= MOST && text !== '')
    return { field: 'ignored', reason: 'holds numbers, and its name does not say which', doubtful: true };
  return ignored(text === '' ? 'has no name' : 'holds text that qualifies no reading');
}

/** The field that a header names, held against what the column holds. */
function checkedName(
  name: Field,
  text: string,
  column: ColumnValues,
  names: readonly (Field | undefined)[],
): Guess | undefined {
  const reason = `is named “${text}”`;
  if (name === 'time' || name === 'date' || name === 'clock') {
    const other = names.some((field) => field === (name === 'clock' ? 'date' : 'clock'));
    if (column.moments >= MOST) return { field: 'time', reason: `${reason} and holds days with times` };
    if (column.days >= MOST) return { field: 'date', reason: `${reason} and holds days` };
    if (column.clocks >= MOST) return { field: 'clock', reason: `${reason} and holds times of day` };
    if (name === 'time' && column.numbers >= MOST)
      return { field: 'elapsed', reason: `${reason} and holds numbers`, doubtful: true };
    return { field: name, reason, doubtful: column.filled > 0 && !other };
  }
  if (!READING_FIELDS.has(name)) return undefined;
  // A counter of samples is no specimen; one called “ID” is no repair where another column is one, or a point stands in each row.
  if (name === 'specimen' && column.filled > 0 && column.numbers >= MOST) return undefined;
  const isOther = names.filter((field) => field === 'repair').length > 1 || names.includes('point');
  if (name === 'repair' && column.counts && plainWords(text) === 'id' && isOther) return undefined;
  if (name === 'mode' && column.filled > 0 && column.distinct.every((cell) => /^(?:auto|manual|man)$/i.test(cell)))
    return undefined;
  const fits =
    name === 'reading'
      ? column.numbers + column.quantities > 0 || column.filled === 0
      : name === 'stage'
        ? column.stages >= MOST || column.filled === 0
        : name !== 'elapsed' || column.numbers >= MOST || column.filled === 0;
  return { field: name, reason, doubtful: !fits };
}

/** “Board” may head the repairs or the board families: ids that count up behind one stem are repairs, a few different names are families. */
function boardGuess(distinct: readonly string[], hasRepair: boolean, hasFamily: boolean): Guess {
  if (hasRepair) return { field: 'family', reason: 'is named like boards, and another column holds the repairs' };
  if (hasFamily) return { field: 'repair', reason: 'is named like boards, and another column holds the families' };
  const names = distinct.slice(0, COMPARED);
  const stems = new Set(names.map((name) => name.replace(/\d+$/, '')));
  const counted = names.filter((name) => /\d{3}$/.test(name)).length;
  const isRepairs = counted > names.length / 2 && stems.size <= Math.max(2, names.length / 3);
  const examples = names.slice(0, 2).join(', ');
  return isRepairs
    ? { field: 'repair', reason: `holds ids that count up, such as ${examples}`, doubtful: names.length < 3 }
    : { field: 'family', reason: `holds names that do not count up, such as ${examples}`, doubtful: true };
}

function readingUse(text: string, unitText: string | undefined, guess: Guess, point: string | undefined): ColumnUse {
  const measured = readHeader(text);
  const below: UnitUse | undefined = unitText === undefined ? undefined : parseUnit(unitText);
  const unit = measured.unit ?? below;
  const mode = measured.mode ?? below?.mode ?? modeOfUnit(unit?.unit);
  const named = point === undefined || point === '' ? undefined : point;
  return {
    header: text,
    field: guess.field,
    reason: unit?.unit === undefined ? guess.reason : `${guess.reason}, in ${unitText ?? unit.unit}`,
    doubtful: guess.doubtful ?? false,
    ...(mode === undefined ? {} : { mode }),
    ...(unit === undefined || unit.prefix === 0 ? {} : { prefix: unit.prefix }),
    ...(named === undefined ? {} : { point: named }),
    ...(measured.stage === undefined ? {} : { stage: measured.stage }),
  };
}

/** A field other than a reading has one column; a plain reading too, where none of them names its point or mode. */
function firstOfEach(uses: readonly ColumnUse[]): ColumnUse[] {
  return uses.map((use, index) => {
    if (use.field === 'ignored') return use;
    const same = (other: ColumnUse): boolean =>
      other.field === use.field &&
      (use.field !== 'reading' || (other.point === use.point && other.mode === use.mode && other.stage === use.stage));
    return uses.findIndex(same) < index
      ? { header: use.header, ...ignored(`is a second column of ${use.field}`) }
      : use;
  });
}

function ignored(reason: string): { field: 'ignored'; reason: string; doubtful: boolean } {
  return { field: 'ignored', reason, doubtful: reason.startsWith('is a second') };
}

import { FIELDS, type ColumnUse, type Field, type FilePlan, type Given, type GivenRange } from '../domain/file-plan.ts';
import type { Shape } from '../domain/import-record.ts';

const READING_FIELDS: readonly Field[] = [
  'ignored', 'time', 'date', 'clock', 'elapsed', 'repair', 'family', 'point', 'stage', 'mode', 'specimen', 'reading', 'unit', 'prefix',
  'status', 'meter',
]; // prettier-ignore
const REPAIR_FIELDS: readonly Field[] = [
  'ignored', 'repair', 'family', 'complaint', 'received', 'returned', 'outcome', 'replaced', 'comeback of', 'bench',
]; // prettier-ignore
const BAND_FIELDS: readonly Field[] = [
  'ignored', 'family', 'boost', 'point', 'role', 'rail', 'part', 'nodes', 'stage', 'mode', 'kind', 'low', 'high', 'nominal', 'percent',
  'unit', 'basis', 'author', 'set on',
]; // prettier-ignore
const METER_FIELDS: readonly Field[] = [
  'ignored', 'meter', 'mode', 'range limit', 'unit', 'resolution', 'percent', 'counts', 'over-range mark', 'calibration due',
]; // prettier-ignore

const FIELDS_OF: Readonly<Record<Shape, readonly Field[]>> = {
  readings: READING_FIELDS,
  repairs: REPAIR_FIELDS,
  bands: BAND_FIELDS,
  meters: METER_FIELDS,
  unknown: FIELDS,
};

/** What a column of a file of this shape can be read as. */
export function fieldsOf(shape: Shape): readonly Field[] {
  return FIELDS_OF[shape];
}

/**
 * The plan with one column read as another field. Every field but `reading` has one column: an earlier one of it gives way. Where the shape is
 * not known yet, the field tells it.
 */
export function withField(plan: FilePlan, index: number, field: Field): FilePlan {
  const columns = plan.columns.map((use, at): ColumnUse => {
    if (at === index) return { ...bare(use), field, reason: 'is your choice' };
    const givesWay = use.field === field && field !== 'ignored' && field !== 'reading';
    return givesWay ? { ...bare(use), field: 'ignored', reason: `gave way to another column of ${field}` } : use;
  });
  const shape = plan.shape === 'unknown' ? shapeOfField(field) : plan.shape;
  return withPoints({ ...plan, shape, columns });
}

/** What the header of a column of readings does not say. */
export type ReadingUse = Pick<ColumnUse, 'mode' | 'prefix' | 'point' | 'stage'>;

/** The plan with mode, prefix, point or stage of one column of readings changed; `undefined` takes what was stated away. */
export function withReadingUse(
  plan: FilePlan,
  index: number,
  changes: { readonly [Key in keyof ReadingUse]: ReadingUse[Key] | undefined },
): FilePlan {
  const columns = plan.columns.map((use, at) => (at === index ? defined<ColumnUse>({ ...use, ...changes }) : use));
  return { ...plan, columns };
}

/** The plan for another kind of table; columns that it does not have are left out. */
export function withShape(plan: FilePlan, shape: Shape): FilePlan {
  const columns = plan.columns.map((use): ColumnUse => {
    if (FIELDS_OF[shape].includes(use.field)) return use;
    return { ...bare(use), field: 'ignored', reason: `is no part of a table of ${shape}` };
  });
  return { ...plan, shape, columns };
}

/** The plan with another line as its header, or with none; what stands in a place is still read as before. @param line - 0 for none */
export function withHeader(plan: FilePlan, line: number, cells: readonly string[]): FilePlan {
  const width = Math.max(plan.columns.length, cells.length);
  const columns = Array.from({ length: width }, (_, at): ColumnUse => {
    const use = plan.columns[at] ?? { header: '', field: 'ignored', reason: 'has no use yet', doubtful: false };
    return { ...use, header: (cells[at] ?? '').trim() };
  });
  return { ...plan, headerLine: line, unitsLine: line > 0 && plan.unitsLine, columns };
}

/** The plan with something stated for all of its rows; `undefined` or an empty text takes it away. */
export function withGiven<Key extends keyof Given>(plan: FilePlan, key: Key, value: Given[Key] | undefined): FilePlan {
  return { ...plan, given: defined<Given>({ ...plan.given, [key]: value === '' ? undefined : value }) };
}

/** The plan with one more range of rows, after the last, for which something else is stated. */
export function withRangeAdded(plan: FilePlan): FilePlan {
  const ranges = plan.givenRanges ?? [];
  const from = Math.max(plan.headerLine, ...ranges.map(({ to }) => to)) + 1;
  return { ...plan, givenRanges: [...ranges, { from, to: from, given: {} }] };
}

/** The plan with one range of rows changed; `undefined` takes it away. */
export function withRange(plan: FilePlan, at: number, range: GivenRange | undefined): FilePlan {
  const ranges = (plan.givenRanges ?? []).flatMap((old, index) => (index === at ? (range ?? []) : old));
  return { ...plan, givenRanges: ranges };
}

/** A range with something stated for its rows; an empty text takes it away. */
export function withRangeGiven(range: GivenRange, key: keyof Given, value: string): GivenRange {
  return { ...range, given: defined<Given>({ ...range.given, [key]: value === '' ? undefined : value }) };
}

/** Several columns of readings without a column of points are one point each, named as their headers. */
function withPoints(plan: FilePlan): FilePlan {
  const readings = plan.columns.filter((use) => use.field === 'reading');
  if (readings.length < 2 || plan.columns.some((use) => use.field === 'point')) return plan;
  const columns = plan.columns.map((use) =>
    use.field === 'reading' && use.point === undefined && use.header !== '' ? { ...use, point: use.header } : use,
  );
  return { ...plan, columns };
}

function shapeOfField(field: Field): Shape {
  if (field === 'reading') return 'readings';
  const shapes = (['readings', 'repairs', 'bands', 'meters'] as const).filter((shape) =>
    FIELDS_OF[shape].includes(field),
  );
  return shapes.length === 1 ? (shapes[0] ?? 'unknown') : 'unknown';
}

function bare(use: ColumnUse): ColumnUse {
  return { header: use.header, field: use.field, reason: use.reason, doubtful: false };
}

function defined<Entries>(entries: { readonly [Key in keyof Entries]: Entries[Key] | undefined }): Entries {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as Entries;
}

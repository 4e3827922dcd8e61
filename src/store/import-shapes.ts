import { DATE_ORDERS, ENCODINGS, FIELDS, SEPARATORS, type ColumnUse, type FilePlan, type Given,
  type GivenRange, type Question } from '../domain/file-plan.ts'; // prettier-ignore
import { SHAPES, type ImportRecord, type SetAside } from '../domain/import-record.ts';
import { MODES, SPECIMENS, STAGES } from '../domain/reading.ts';
import type { StoredNames } from './columns-codec.ts';
import { count, finite, listOf, moment, oneOf, optional, shape, ShapeFault, text, yesOrNo, type Read } from './fields.ts'; // prettier-ignore

const hexadecimal: Read<string> = (value, place) => {
  const digits = text(value, place);
  if (!/^[0-9a-f]{64}$/.test(digits)) throw new ShapeFault(`${place} is no SHA-256 in hexadecimal digits`);
  return digits;
};

export const hashShape = hexadecimal;

const recordShape: Read<ImportRecord> = shape<ImportRecord>({
  file: text,
  hash: hexadecimal,
  shape: oneOf(SHAPES),
  encoding: text,
  separator: text,
  rows: count(),
  taken: count(),
  setAside: count(),
  known: count(),
  noData: count(),
  notices: listOf(text, 100_000),
});

const setAsideShape: Read<SetAside> = shape<SetAside>({
  file: text,
  line: count(),
  column: text,
  content: text,
  reason: text,
});

const givenShape: Read<Given> = shape<Given>({
  repair: optional(text),
  family: optional(text),
  point: optional(text),
  stage: optional(oneOf(STAGES)),
  mode: optional(oneOf(MODES)),
  specimen: optional(oneOf(SPECIMENS)),
  meter: optional(text),
  start: optional(moment),
});

export const planShape: Read<FilePlan> = shape<FilePlan>({
  encoding: oneOf(ENCODINGS),
  separator: oneOf(SEPARATORS),
  shape: oneOf(SHAPES),
  headerLine: count(),
  unitsLine: yesOrNo,
  columns: listOf(
    shape<ColumnUse>({
      header: text,
      field: oneOf(FIELDS),
      reason: text,
      doubtful: yesOrNo,
      mode: optional(oneOf(MODES)),
      prefix: optional(finite),
      point: optional(text),
      stage: optional(oneOf(STAGES)),
      unitColumn: optional(count()),
    }),
    100_000,
  ),
  decimalMark: oneOf(['.', ',']),
  dateOrder: oneOf(DATE_ORDERS),
  given: givenShape,
  overRangeMarks: optional(listOf(text)),
  givenRanges: optional(listOf(shape<GivenRange>({ from: count(), to: count(), given: givenShape }), 100_000)),
  questions: listOf(
    shape<Question>({
      about: oneOf(['encoding', 'decimal mark', 'date order', 'columns', 'given']),
      text,
      columns: optional(listOf(count(), 100_000)),
      lines: optional(listOf(count(), 100_000)),
    }),
    10_000,
  ),
});

const fourCodes: Read<readonly [number, number, number, number]> = (value, place) => {
  const [family, point, stage, mode, ...more] = listOf(count(0xffffffff), 4)(value, place);
  if (family === undefined || point === undefined || stage === undefined || mode === undefined || more.length > 0)
    throw new ShapeFault(`${place} are no four codes`);
  return [family, point, stage, mode];
};

const namesShape: Read<StoredNames> = shape<StoredNames>({
  repairs: listOf(text),
  families: listOf(text),
  points: listOf(text),
  meters: listOf(text),
  files: listOf(text),
  checks: listOf(fourCodes),
});

/** What is kept of an import beside its readings and the file's own bytes. */
export interface ImportDetails {
  readonly record: ImportRecord;
  readonly setAside: readonly SetAside[];
  readonly plan?: FilePlan;
  /** Where it holds readings. */
  readonly names?: StoredNames;
}

export const detailsShape: Read<ImportDetails> = shape<ImportDetails>({
  record: recordShape,
  setAside: listOf(setAsideShape),
  plan: optional(planShape),
  names: optional(namesShape),
});

import type { ColumnUse, Field, FilePlan, Preview, Question } from '../../src/domain/file-plan.ts';

/** A column read as a field because it is named so. */
export function use(header: string, field: Field, changes: Partial<ColumnUse> = {}): ColumnUse {
  return { header, field, reason: `is named “${header}”`, doubtful: false, ...changes };
}

export const DECIMAL: Question = {
  about: 'decimal mark',
  text: 'Is “123,000” a number with decimals, or one with a mark between thousands? The file does not show which.',
};

export const ORDER: Question = {
  about: 'date order',
  text: 'Does “03/04/2026” start with the day or with the month? The file does not show which.',
};

export const GIVEN: Question = {
  about: 'given',
  text: 'The file does not say: which repair. State it for all its rows.',
};

/** A plan of a complete log of readings, with a question or without. */
export function planOf(changes: Partial<FilePlan> = {}): FilePlan {
  return {
    encoding: 'utf-8',
    separator: ';',
    shape: 'readings',
    headerLine: 1,
    unitsLine: false,
    columns: [
      use('When', 'time'),
      use('Job', 'repair'),
      use('Where', 'point'),
      use('Stage', 'stage'),
      use('Mode', 'mode'),
      use('Value', 'reading'),
    ],
    decimalMark: ',',
    dateOrder: 'year-month-day',
    given: {},
    questions: [],
    ...changes,
  };
}

/** A preview of one row that can be read and one that is set aside. */
export function previewOf(plan: FilePlan): Preview {
  const row = (line: number, ...cells: readonly string[]) => ({
    line,
    cells: cells.map((text) => ({ text, read: text, doubtful: false })),
  });
  return {
    plan,
    rows: [
      row(2, '2026-03-14 09:00', 'T-0131', 'bulk', 'live', 'DC volts', '123,000'),
      row(3, '2026-02-30 09:00', 'T-0131', 'bulk', 'live', 'DC volts', '124,000'),
    ],
    problems: [
      { file: 'odd.csv', line: 3, column: 'When', content: '2026-02-30 09:00;…', reason: 'There is no such day.' },
    ],
    count: {
      rows: 2,
      taken: 1,
      setAside: [{ reason: 'There is no such day.', rows: 1 }],
      times: undefined,
      isWhole: true,
    },
  };
}

import type { nothing, TemplateResult } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { DerivedField, EditField, ReadingRow, SortField } from '../../session/answers.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { derivedText } from './derived-text.ts';
import {
  numberCell,
  originCell,
  originText,
  pointCell,
  pointText,
  readingCell,
  timeCell,
  timeText,
  verdictCell,
  verdictLine,
} from './grid-cells.ts';
import { readingLine } from './reading-text.ts';

/** One column of the grid of readings. */
export interface GridColumn {
  readonly id: string;
  readonly title: string;
  /** What it says, where the title cannot say it all. */
  readonly about?: string;
  /** Whether it is there to choose from at first, and not shown. */
  readonly spare?: boolean;
  /** The derived field that it shows, which must be asked for. */
  readonly derived?: DerivedField;
  /** The order that the column's header gives, where it gives one. */
  readonly sort?: SortField;
  /** The field that is edited in it, where one is. */
  readonly edit?: EditField;
  /** Its least width, as a length of a style sheet. */
  readonly width: string;
  /** Its share of the room that is left, 0 for none. */
  readonly share: number;
  /** What the cell says in plain text, for copies and for the voice; empty where another cell says the same. */
  readonly text: (row: ReadingRow, mark: DecimalMark) => string;
  /** What the cell shows, where that is more than its text. */
  readonly cell?: (row: ReadingRow, mark: DecimalMark) => TemplateResult | typeof nothing;
}

/** All columns, in the order in which they stand at first; derived ones are there to choose from. */
export const GRID_COLUMNS: readonly GridColumn[] = [
  // The style sheet leaves the year out where there is little room.
  {
    id: 'time',
    title: 'time',
    sort: 'time',
    edit: 'time',
    width: 'var(--time-width)',
    share: 0,
    text: timeText,
    cell: timeCell,
  },
  {
    id: 'repair',
    title: 'repair',
    sort: 'repair',
    edit: 'repair',
    width: '4.25em',
    share: 0,
    text: ({ repair }) => repair,
  },
  {
    id: 'family',
    title: 'family',
    sort: 'family',
    edit: 'family',
    width: '6em',
    share: 0,
    text: ({ family }) => family,
  },
  {
    id: 'point',
    title: 'point',
    sort: 'point',
    edit: 'point',
    width: '9em',
    share: 1.5,
    text: pointText,
    cell: pointCell,
  },
  { id: 'stage', title: 'stage', sort: 'stage', edit: 'stage', width: '5.75em', share: 0, text: ({ stage }) => stage },
  { id: 'mode', title: 'mode', sort: 'mode', edit: 'mode', width: '5.75em', share: 0, text: ({ mode }) => mode },
  {
    id: 'reading',
    title: 'reading',
    sort: 'reading',
    edit: 'reading',
    width: '8em',
    share: 0,
    text: readingLine,
    cell: readingCell,
  },
  { id: 'tape', title: 'against its band', width: '7.75em', share: 0, text: () => '', cell: tape },
  {
    id: 'verdict',
    title: 'verdict',
    sort: 'verdict',
    width: '11.5em',
    share: 1,
    text: verdictLine,
    cell: verdictCell,
  },
  { id: 'meter', title: 'meter', sort: 'meter', edit: 'meter', width: '3em', share: 0, text: ({ meter }) => meter },
  { id: 'origin', title: 'file and line', sort: 'file', width: '5em', share: 2, text: originText, cell: originCell },
  {
    id: 'specimen',
    title: 'specimen',
    about: 'whether the board’s own part was measured, or a new one beside it',
    spare: true,
    edit: 'specimen',
    width: '6em',
    share: 0,
    text: ({ specimen }) => specimen,
  },
  derived('margin', 'margin', 'distance to the nearer limit, below zero outside of the band', '7.5em'),
  derived('margin-in-u', 'margin in U', 'distance to the nearer limit in multiples of the uncertainty U', '7em'),
  derived('deviation', 'off nominal', 'deviation from the nominal value of its band in percent', '6em'),
  derived('change', 'since stage before', 'change from the last number of the stage before at this point', '8.5em'),
  derived('ratio', 'to new part', 'ratio to the number of a new part measured beside it', '6em'),
  derived('robust-z', 'robust z', 'modified z-score among all numbers of its family, point, stage and mode', '6em'),
];

/** Space between columns. */
const GAP = '0.625em';

/** The columns as tracks of a CSS grid, the space between them, and the width below which the grid scrolls sideways. */
export function columnTracks(columns: readonly GridColumn[]): { tracks: string; gap: string; leastWidth: string } {
  return {
    tracks: columns.map((column) => (column.share === 0 ? widthOf(column) : `minmax(${widthOf(column)}, ${column.share}fr)`)).join(' '), // prettier-ignore
    gap: GAP,
    leastWidth: `calc(${columns.map(widthOf).join(' + ')} + ${columns.length - 1} * ${GAP})`,
  };
}

/** For each pinned column, where it stands while the others are scrolled sideways; pinned columns come first and keep their widths. */
export function pinOffsets(columns: readonly (GridColumn & { readonly pinned: boolean })[]): readonly string[] {
  return columns
    .filter((column) => column.pinned)
    .map(
      (_, index) =>
        `calc(${['0px', ...columns.slice(0, index).map((column) => `${widthOf(column)} + ${GAP}`)].join(' + ')})`,
    );
}

/** A column's least width: wider by as much as a reader's own letter spacing widens its texts. */
function widthOf({ width }: GridColumn): string {
  return `calc(${width} * var(--stretch, 1))`;
}

/** The derived fields that some columns show. */
export function derivedFields(columns: readonly GridColumn[]): readonly DerivedField[] {
  return columns.flatMap((column) => column.derived ?? []);
}

/** A column by its id. @throws Error where there is none */
export function columnOf(id: string): GridColumn {
  const column = GRID_COLUMNS.find((candidate) => candidate.id === id);
  if (column === undefined) throw new Error(`The grid has no column ${id}.`);
  return column;
}

function derived(field: DerivedField, title: string, about: string, width: string): GridColumn {
  const text = (row: ReadingRow, mark: DecimalMark): string => derivedText(field, row, mark);
  const cell: GridColumn['cell'] = (row, mark) => numberCell(text(row, mark), mark);
  return { id: field, title, about, spare: true, sort: field, derived: field, width, share: 0, text, cell };
}

import { html, nothing, type TemplateResult } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingRow, SortField } from '../../session/answers.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { verdictText } from '../verdict-text.ts';
import { readingLine, readingText } from './reading-text.ts';

/** One column of the grid of readings. */
export interface GridColumn {
  readonly id: string;
  readonly title: string;
  /** The order that the column's header gives, where it gives one. */
  readonly sort?: SortField;
  /** Its least width, as a length of a style sheet. */
  readonly width: string;
  /** Its share of the room that is left, 0 for none. */
  readonly share: number;
  /** What the cell says in plain text, for copies and for the voice; empty where another cell says the same. */
  readonly text: (row: ReadingRow, mark: DecimalMark) => string;
  /** What the cell shows, where that is more than its text. */
  readonly cell?: (row: ReadingRow, mark: DecimalMark) => TemplateResult;
}

/** All columns, in their order. */
export const GRID_COLUMNS: readonly GridColumn[] = [
  // The style sheet leaves the year out where there is little room.
  { id: 'time', title: 'time', sort: 'time', width: 'var(--time-width)', share: 0, text: timeText, cell: timeCell },
  { id: 'repair', title: 'repair', sort: 'repair', width: '4.25em', share: 0, text: ({ repair }) => repair },
  { id: 'family', title: 'family', sort: 'family', width: '6em', share: 0, text: ({ family }) => family },
  { id: 'point', title: 'point', sort: 'point', width: '9em', share: 1.5, text: pointText, cell: pointCell },
  { id: 'stage', title: 'stage', sort: 'stage', width: '5.75em', share: 0, text: ({ stage }) => stage },
  { id: 'mode', title: 'mode', sort: 'mode', width: '5.75em', share: 0, text: ({ mode }) => mode },
  { id: 'reading', title: 'reading', sort: 'reading', width: '7.75em', share: 0, text: readingLine, cell: readingCell },
  { id: 'tape', title: 'against its band', width: '7.75em', share: 0, text: () => '', cell: tape },
  {
    id: 'verdict',
    title: 'verdict',
    sort: 'verdict',
    width: '10.25em',
    share: 1,
    text: verdictLine,
    cell: verdictCell,
  },
  { id: 'meter', title: 'meter', sort: 'meter', width: '3em', share: 0, text: ({ meter }) => meter },
  { id: 'origin', title: 'file and line', sort: 'file', width: '5em', share: 2, text: originText, cell: originCell },
];

/** Space between columns. */
const GAP = '0.625em';

/** The columns as tracks of a CSS grid, the space between them, and the width below which the grid scrolls sideways. */
export function columnTracks(columns: readonly GridColumn[]): { tracks: string; gap: string; leastWidth: string } {
  return {
    tracks: columns.map(({ width, share }) => (share === 0 ? width : `minmax(${width}, ${share}fr)`)).join(' '),
    gap: GAP,
    leastWidth: `calc(${columns.map(({ width }) => width).join(' + ')} + ${columns.length - 1} * ${GAP})`,
  };
}

/** What is said of a row when the cursor comes to it. */
export function spokenRow(row: ReadingRow, mark: DecimalMark): string {
  return `${row.family} ${pointText(row)}, ${row.stage}, ${readingLine(row, mark)}, ${verdictLine(row)}`;
}

function timeText({ time }: ReadingRow): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 19).replace('T', ' ');
}

function timeCell(row: ReadingRow): TemplateResult {
  const text = timeText(row);
  return html`<span class="figures"><span class="year">${text.slice(0, 5)}</span>${text.slice(5)}</span>`;
}

function pointText({ point, specimen }: ReadingRow): string {
  return specimen === 'board' ? point : `${point}, ${specimen}`;
}

function pointCell({ point, specimen }: ReadingRow): TemplateResult {
  // A board's own part is what is measured unless something else is said.
  return html`<b>${point}</b>${specimen === 'board' ? nothing : html` <span class="quiet">${specimen}</span>`}`;
}

function readingCell(row: ReadingRow, mark: DecimalMark): TemplateResult {
  const { whole, fraction, unit } = readingText(row, mark);
  const isWord = unit === '';
  return html`<span class="reading ${isWord ? 'word' : ''}"
    ><span class="whole">${whole}</span>${
      isWord ? nothing : html`<span class="fraction">${fraction}</span><span class="unit">${unit}</span>`
    }</span
  >`;
}

function verdictLine({ verdict, word }: ReadingRow): string {
  return verdictText(verdict, word).word;
}

function verdictCell({ verdict, word }: ReadingRow): TemplateResult {
  const { sign, word: text, wrong } = verdictText(verdict, word);
  return html`<span class=${wrong ? 'verdict wrong' : 'verdict'}><span aria-hidden="true">${sign}</span>${text}</span>`;
}

function originText({ origin }: ReadingRow): string {
  return `${origin.file}:${origin.line}`;
}

function originCell({ origin }: ReadingRow): TemplateResult {
  return html`<span class="origin"><span class="file">${origin.file}</span><span>:${origin.line}</span></span>`;
}

import { html, nothing, type TemplateResult } from 'lit';
import { isDayOnly } from '../../domain/day.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Reading } from '../../domain/reading.ts';
import type { ReadingRow } from '../../session/answers.ts';
import { verdictText } from '../verdict-text.ts';
import { readingLine, readingText } from './reading-text.ts';

/** What is said of a row when the cursor comes to it. */
export function spokenRow(row: ReadingRow, mark: DecimalMark): string {
  return `${row.family} ${pointText(row)}, ${row.stage}, ${readingLine(row, mark)}, ${verdictLine(row)}`;
}

export function timeText({ time }: Reading): string {
  if (Number.isNaN(time)) return '';
  return new Date(time)
    .toISOString()
    .slice(0, isDayOnly(time) ? 10 : 19)
    .replace('T', ' ');
}

export function timeCell(row: ReadingRow): TemplateResult {
  const text = timeText(row);
  return html`<span class="figures"><span class="year">${text.slice(0, 5)}</span>${text.slice(5)}</span>`;
}

export function pointText({ point, specimen }: ReadingRow): string {
  return specimen === 'board' ? point : `${point}, ${specimen}`;
}

export function pointCell({ point, specimen }: ReadingRow): TemplateResult {
  // A board's own part is what is measured unless something else is said.
  return html`<b>${point}</b>${specimen === 'board' ? nothing : html` <span class="quiet">${specimen}</span>`}`;
}

export function readingCell(row: ReadingRow, mark: DecimalMark): TemplateResult {
  const { whole, fraction, unit } = readingText(row, mark);
  if (unit === '') return html`<span class="reading word"><span class="whole">${whole}</span></span>`;
  return alignedCell(whole, fraction, unit);
}

/** A number with its unit, such as `12.5\u00a0V`, so that its column aligns on the decimal mark; nothing for an empty text. */
export function numberCell(text: string, mark: DecimalMark): TemplateResult | typeof nothing {
  if (text === '') return nothing;
  const [number = '', unit = ''] = text.split('\u00a0');
  const at = number.indexOf(mark);
  return at < 0 ? alignedCell(number, '', unit) : alignedCell(number.slice(0, at), number.slice(at), unit);
}

function alignedCell(whole: string, fraction: string, unit: string): TemplateResult {
  return html`<span class="reading"
    ><span class="whole">${whole}</span><span class="fraction">${fraction}</span
    ><span class="unit">${unit === '' ? nothing : `\u00a0${unit}`}</span></span
  >`;
}

export function verdictLine({ verdict, word }: ReadingRow): string {
  return verdictText(verdict, word).word;
}

export function verdictCell({ verdict, word }: ReadingRow): TemplateResult {
  const { sign, word: text, wrong } = verdictText(verdict, word);
  return html`<span class=${wrong ? 'verdict wrong' : 'verdict'}><span aria-hidden="true">${sign}</span>${text}</span>`;
}

export function originText({ origin }: ReadingRow): string {
  return `${origin.file}:${origin.line}`;
}

export function originCell({ origin }: ReadingRow): TemplateResult {
  return html`<span class="origin"><span class="file">${origin.file}</span><span>:${origin.line}</span></span>`;
}

import { html, nothing, type TemplateResult } from 'lit';
import { formatShown, type DecimalMark, type QuantityText } from '../../domain/quantity.ts';
import type { ReadingsQuery, SelectionSummary } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import type { Question } from '../controllers/answer-controller.ts';
import { countOf, countText } from '../words.ts';
import { computedText } from './computed-text.ts';
import type { GridRange } from './grid-cursor.ts';

/** Shown while nothing is selected that a sentence could be about. */
export const KEYS_HINT = html`
  <span>Enter: about this reading</span>
  <span>Ctrl and Enter: to its repair, band or file</span>
  <span>Shift and arrows: select</span>
  <span>Ctrl and C: copy</span>
  <span>Enter on a heading: sort</span>
  <span>?: all keys</span>
`;

/** Asks what the selected lines come to; undefined where no more than one is selected, which says it all itself. */
export function summaryQuestion(
  session: Session | undefined,
  query: ReadingsQuery | undefined,
  range: GridRange | undefined,
): Question<SelectionSummary> | undefined {
  if (session === undefined || query === undefined || range === undefined) return undefined;
  const { firstRow, lastRow } = range;
  if (firstRow === lastRow) return undefined;
  return {
    key: JSON.stringify([session.state.revision, query, firstRow, lastRow]),
    ask: (signal) => session.ask('summarise', [query, firstRow, lastRow], signal),
    keepsLast: true,
  };
}

/** The sentence about the selected rows: how many, how many out of band, and what their numbers come to. */
export function selectionLine(summary: SelectionSummary, mark: DecimalMark): TemplateResult {
  const { rows, outOfBand, overRange, numbers } = summary;
  const count = (value: number): TemplateResult => html`<b class="figures">${countText(value, mark)}</b>`;
  return html`
    <span><b>${countOf(rows, 'reading', mark)}</b> selected</span>
    <span>out of band ${count(outOfBand)}</span>
    ${overRange > 0 ? html`<span>over-range ${count(overRange)}, not averaged</span>` : nothing}
    ${numbers === undefined ? nothing : numbersOf(numbers, mark)}
  `;
}

function numbersOf(numbers: NonNullable<SelectionSummary['numbers']>, mark: DecimalMark): TemplateResult {
  const { mean, median, deviation, minimum, maximum, minimumShown, maximumShown, unit, lastDigit } = numbers;
  const written = (text: QuantityText): TemplateResult => html`<b class="figures">${text.number}</b> ${text.unit}`;
  const computed = (value: number, last: number): TemplateResult => written(computedText(value, unit, last, mark));
  // A mean of several readings carries one digit more than they do; the least and the greatest are readings themselves.
  return html`
    <span>mean ${computed(mean, lastDigit - 1)}</span>
    <span>median ${computed(median, lastDigit)}</span>
    ${Number.isNaN(deviation) ? nothing : html`<span>standard deviation ${computed(deviation, lastDigit - 1)}</span>`}
    <span
      >from ${written(formatShown(minimum, unit, minimumShown, mark))} to
      ${written(formatShown(maximum, unit, maximumShown, mark))}</span
    >
  `;
}

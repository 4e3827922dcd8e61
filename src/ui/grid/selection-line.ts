import { html, nothing, type TemplateResult } from 'lit';
import { formatComputed, UNITS, type DecimalMark } from '../../domain/quantity.ts';
import type { SelectionSummary } from '../../session/answers.ts';
import { countOf, countText } from '../words.ts';

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
  const { mean, median, deviation, minimum, maximum, lastDigit } = numbers;
  const unit = UNITS.find((candidate) => candidate === numbers.unit);
  if (unit === undefined) return html``;
  const quantity = (value: number, last: number): TemplateResult => {
    const text = formatComputed(value, unit, finestDigit(value, last), mark);
    return html`<b class="figures">${text.number}</b> ${text.unit}`;
  };
  // A mean of several readings carries one digit more than they do.
  return html`
    <span>mean ${quantity(mean, lastDigit - 1)}</span>
    <span>median ${quantity(median, lastDigit)}</span>
    ${Number.isNaN(deviation) ? nothing : html`<span>standard deviation ${quantity(deviation, lastDigit - 1)}</span>`}
    <span>from ${quantity(minimum, lastDigit)} to ${quantity(maximum, lastDigit)}</span>
  `;
}

/** Small numbers beside large ones keep two digits, although the large ones were measured more coarsely. */
function finestDigit(value: number, last: number): number {
  const magnitude = Math.abs(value);
  return magnitude > 0 && Number.isFinite(magnitude) ? Math.min(last, Math.floor(Math.log10(magnitude)) - 1) : last;
}

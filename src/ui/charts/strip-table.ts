import { html, nothing, type TemplateResult } from 'lit';
import { summariseRows } from '../../charts/strip.ts';
import type { DecimalMark, Unit } from '../../domain/quantity.ts';
import { limitText } from '../band-text.ts';
import type { PastPoints } from '../../session/answers.ts';
import { countText } from '../words.ts';
import { STRIP_ROWS, stripMarks } from './strip-marks.ts';

/** The numbers behind a strip of readings, as a table. */
export function stripTable(points: PastPoints, unit: Unit, mark: DecimalMark): TemplateResult {
  const summaries = summariseRows(stripMarks(points), STRIP_ROWS.length);
  const below = summaries.some((row) => row.below > 0);
  const count = (value: number) => html`<td class="number">${countText(value, mark)}</td>`;
  const quantity = (value: number) =>
    html`<td class="number">${Number.isNaN(value) ? '' : limitText(value, unit, mark)}</td>`;
  return html`<div class="sideways" tabindex="0" role="region" aria-label="The readings as numbers">
    <table class="narrow">
      <caption>
        The readings above, as numbers
      </caption>
      <thead>
        <tr>
          <th scope="col">board or part</th>
          ${['numbers', ...(below ? ['below range'] : []), 'over range', 'lowest', 'median', 'highest'].map(
            (title) => html`<th scope="col" class="number">${title}</th>`,
          )}
        </tr>
      </thead>
      <tbody>
        ${summaries.map(
          (row, at) =>
            html`<tr>
              <th scope="row">${STRIP_ROWS[at]?.name}</th>
              ${count(row.numbers)} ${below ? count(row.below) : nothing} ${count(row.above)} ${quantity(row.lowest)}
              ${quantity(row.median)} ${quantity(row.highest)}
            </tr>`,
        )}
      </tbody>
    </table>
  </div>`;
}

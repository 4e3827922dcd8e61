import { html, nothing } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { ReadingRow } from '../../session/answers.ts';
import { readingLine } from '../grid/reading-text.ts';
import { verdictText } from '../verdict-text.ts';
import type { PartComparison } from './repair-answers.ts';
import { ratioText } from './repair-words.ts';

/** The table of parts that were lifted or measured beside a new one: in circuit, out of circuit, new, and the ratio to the new one. */
export function besideTable(comparisons: readonly PartComparison[], mark: DecimalMark) {
  if (comparisons.length === 0) return nothing;
  return html`<h3 id="beside">In circuit, out of it, and beside a new part</h3>
    <p class="quiet">The ratio is to the new part of the same type, with no digit finer than was measured.</p>
    <div class="sideways" tabindex="0" role="region" aria-labelledby="beside">
      <table aria-labelledby="beside">
        <thead>
          <tr>
            <th scope="col">point</th>
            <th scope="col">mode</th>
            <th scope="col" class="number">as received</th>
            <th scope="col" class="number">part out</th>
            <th scope="col" class="number">new part</th>
            <th scope="col" class="number">to new, times</th>
          </tr>
        </thead>
        <tbody>
          ${comparisons.map(({ point, inCircuit, outOfCircuit, newPart, ratio }) => {
            const mode = (outOfCircuit ?? newPart ?? inCircuit)?.mode ?? '';
            return html`<tr>
              <th scope="row">${point}</th>
              <td>${mode}</td>
              ${[inCircuit, outOfCircuit, newPart].map((reading) => cell(reading, mark))}
              <td class="number figures">${ratioText(ratio, mark)}</td>
            </tr>`;
          })}
        </tbody>
      </table>
    </div>`;
}

function cell(reading: ReadingRow | undefined, mark: DecimalMark) {
  if (reading === undefined) return html`<td class="number quiet">not measured</td>`;
  const { sign, word, wrong } = verdictText(reading.verdict, reading.word);
  return html`<td class="number">
    <span class="figures">${readingLine(reading, mark)}</span>
    <span class=${wrong ? 'wrong' : 'quiet'} title=${word}>${sign}<span class="spoken">${word}</span></span>
  </td>`;
}

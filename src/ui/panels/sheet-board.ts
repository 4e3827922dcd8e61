import { LitElement, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { PartEvidence, ReadingRow, RepairStory } from '../../session/answers.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { readingLine } from '../grid/reading-text.ts';
import { hashOf } from '../route.ts';
import { factsStyles } from '../styles/facts.styles.ts';
import { shared } from '../styles/shared.styles.ts';
import { verdictText } from '../verdict-text.ts';
import { dayText, listText } from '../words.ts';
import type { RepairDecision } from './repair-answers.ts';
import { goBackSentence, standingText } from './repair-words.ts';
import { beforeAndAfter, type BeforeAfter } from './sheet-before-after.ts';
import { sheetCautions, sheetHead } from './sheet-frame.ts';
import { printAlone } from './sheet-print.ts';
import { sheetStyles } from './sheet-styles.ts';

/** The sheet that goes into the box with a board: complaint, what was found and replaced, readings before and after. */
@customElement('bt-sheet-board')
export class SheetBoard extends LitElement {
  static override styles = [shared, factsStyles, tapeStyles, sheetStyles];

  @property({ attribute: false }) story!: RepairStory;
  @property({ attribute: false }) decision!: RepairDecision;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  constructor() {
    super();
    printAlone(this);
  }

  private renderFacts() {
    const { repair } = this.story.line;
    const facts: readonly (readonly [string, string])[] = [
      ['family', repair.family],
      ['complaint', repair.complaint],
      ['received', dayText(repair.received)],
      ['returned', dayText(repair.returned)],
      ['outcome', repair.outcome],
      ['came back from', repair.comebackOf ?? ''],
      ['came back as', this.story.comebacks.join(', ')],
    ];
    return html`<dl class="facts">
      ${facts.map(([name, value]) => (value === '' ? nothing : html`<div><dt>${name}</dt><dd>${value}</dd></div>`))}
    </dl>`; // prettier-ignore
  }

  private renderFound() {
    const { parts, findings, line } = this.story;
    const of = (finding: PartEvidence['finding']) => parts.filter((part) => part.finding === finding);
    const failed = of('failed').map(({ part, word }) => `${part}${word === undefined ? '' : ` (${word})`}`);
    const suspected = of('suspected').map(({ part }) => part);
    const { replaced } = line.repair;
    return html`<section>
      <h2>Found and replaced</h2>
      <p>
        ${failed.length === 0 ? 'No part was proved failed.' : `Failed: ${listText(failed)}.`}
        ${suspected.length === 0 ? nothing : `Suspected, and masked by others: ${listText(suspected)}.`}
        ${replaced.length === 0 ? 'Nothing was replaced.' : `Replaced: ${listText(replaced)}.`}
        ${replaced.some((part) => !of('failed').some((one) => one.part === part)) ? 'Not every part that was replaced had failed.' : nothing}
      </p>
      ${findings.length === 0 ? nothing : html`<ul>${findings.map((finding) => html`<li>${finding}</li>`)}</ul>`}
    </section>`; // prettier-ignore
  }

  private renderReading(reading: ReadingRow | undefined) {
    if (reading === undefined) return html`<td class="number quiet">not read</td><td></td><td></td>`; // prettier-ignore
    const { sign, word, wrong } = verdictText(reading.verdict, reading.word);
    return html`<td class="number figures">${readingLine(reading, this.decimalMark)}</td>
      <td class="against">${tape(reading)}</td>
      <td class=${wrong ? 'wrong' : ''}>${sign} ${word}</td>`;
  }

  private renderReadings(points: readonly BeforeAfter[]) {
    if (points.length === 0) return html`<p>No reading was taken.</p>`;
    return html`<div class="sideways">
      <table aria-labelledby="readings">
        <thead>
          <tr>
            <th scope="col">point</th>
            <th scope="col" class="number">before</th>
            <th scope="col"><span class="spoken">before, against its band</span></th>
            <th scope="col"><span class="spoken">before, verdict</span></th>
            <th scope="col" class="number">after</th>
            <th scope="col"><span class="spoken">after, against its band</span></th>
            <th scope="col"><span class="spoken">after, verdict</span></th>
          </tr>
        </thead>
        <tbody>
          ${points.map(
            ({ point, before, after }) =>
              html`<tr>
                <th scope="row">${point}</th>
                ${this.renderReading(before)} ${this.renderReading(after)}
              </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  private renderLines() {
    const { goBack, mayGoBack } = this.decision;
    return html`<section>
      <h2>What must hold before it goes back</h2>
      <p>${goBackSentence(goBack, mayGoBack)}</p>
      <ul class="lines">
        ${goBack.map((entry) => {
          const { sign, word } = standingText(entry);
          return html`<li>
            <span aria-hidden="true">${sign}</span>
            <span>
              ${entry.must} <b>${word}</b>: ${entry.sentence}
              ${entry.overruled === undefined ? nothing : html`Overruled: ${entry.overruled}`}
            </span>
          </li>`;
        })}
      </ul>
    </section>`;
  }

  override render() {
    const { id, family } = this.story.line.repair;
    return html`${sheetHead({
        title: family === '' ? id : `${id}, ${family}`,
        kind: 'Repair sheet',
        back: [hashOf('repairs', id), 'Back to the repair'],
      })}
      ${this.renderFacts()} ${this.renderFound()}
      <section>
        <h2 id="readings">Readings before and after</h2>
        <p class="quiet">
          The shaded part of each scale is the band, the tick the reading, a hollow ring over range. Points read again
          after the repair, and points that were out of band as the board came.
        </p>
        ${this.renderReadings(beforeAndAfter(this.story.readings))}
      </section>
      ${this.renderLines()} ${sheetCautions('Before anyone works on this board')}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-sheet-board': SheetBoard;
  }
}

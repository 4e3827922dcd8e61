import { LitElement, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { hashOf, shiftSheetHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, dayText, listText } from '../words.ts';
import { typedDay } from './repair-numbers.ts';
import { goBackSentence } from './repair-words.ts';
import { sheetCautions, sheetHead } from './sheet-frame.ts';
import { printAlone } from './sheet-print.ts';
import { askShift, type ShiftBoard, type ShiftSummary } from './sheet-shift-answer.ts';
import { sheetStyles } from './sheet-styles.ts';

/** More rows that were set aside than this are counted, not listed. */
const LISTED = 40;

/** The sheet that sums up one day's work: its boards and what became of them, verdicts, comebacks, rows set aside, meters. */
@customElement('bt-sheet-shift')
export class SheetShift extends LitElement {
  static override styles = [shared, sheetStyles];

  private readonly shift = new AnswerController<ShiftSummary | undefined>(this, () => ({
    key: `${this.session.state.revision} ${this.session.state.decimalMark} ${this.day}`,
    ask: (signal) => askShift(this.session, typedDay(this.day) ?? NaN, signal),
  }));

  @property({ attribute: false }) session!: Session;
  /** The day, as `2026-03-14`; empty for the last one with readings. */
  @property({ attribute: false }) day = '';

  constructor() {
    super();
    followSession(this, () => this.session);
    printAlone(this);
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  private choose(event: Event): void {
    location.hash = shiftSheetHash((event.target as HTMLInputElement).value);
  }

  private renderBoard({ line, readings, decision }: ShiftBoard) {
    const { repair } = line;
    const go = decision === undefined ? '' : goBackSentence(decision.goBack, decision.mayGoBack);
    const overruled = decision?.goBack.filter((entry) => entry.overruled !== undefined) ?? [];
    return html`<tr>
      <th scope="row"><a href=${hashOf('repairs', repair.id)}>${repair.id}</a></th>
      <td>${repair.family}</td>
      <td class="wraps complaint">
        ${repair.complaint}${repair.comebackOf === undefined ? nothing : html` (comeback of ${repair.comebackOf})`}
      </td>
      <td>${repair.outcome}</td>
      <td class="wraps">${repair.replaced.join(', ')}</td>
      <td class="number">${countText(readings, this.mark)}</td>
      <td class="wraps">
        <span aria-hidden="true">${decision?.mayGoBack === true ? '✓' : '✗'}</span> ${go}
        ${overruled.map(({ must, overruled: reason }) => html`${must} Overruled: ${reason}. `)}
      </td>
    </tr>`;
  }

  private renderBoards({ boards }: ShiftSummary) {
    return html`<section>
      <h2 id="boards">Which boards were on the bench?</h2>
      <div class="sideways" tabindex="0" role="region" aria-labelledby="boards">
        <table aria-labelledby="boards">
          <thead>
            <tr>
              <th scope="col">repair</th>
              <th scope="col">family</th>
              <th scope="col">complaint</th>
              <th scope="col">outcome</th>
              <th scope="col">replaced</th>
              <th scope="col" class="number">readings</th>
              <th scope="col">may it go back?</th>
            </tr>
          </thead>
          <tbody>
            ${boards.map((board) => this.renderBoard(board))}
          </tbody>
        </table>
      </div>
    </section>`;
  }

  private renderCounts({ verdicts, boards }: ShiftSummary) {
    const comebacks = boards
      .filter(({ line }) => line.repair.comebackOf !== undefined)
      .map(({ line }) => line.repair.id);
    return html`<section>
      <h2>Verdicts and comebacks</h2>
      <p>
        ${verdicts.map(({ value, count }) => `${value}: ${countText(count, this.mark)}`).join(' · ')}.
        ${comebacks.length === 0 ? 'No board had come back.' : `Came back: ${listText(comebacks)}.`}
      </p>
    </section>`;
  }

  private renderMeters({ meters, offsets }: ShiftSummary) {
    return html`<section>
      <h2>Which meters were used, and is one off?</h2>
      <ul>
        ${meters.map(({ value, count }) => {
          const period = offsets.find(({ meter }) => meter === value);
          return html`<li>
            <b>${value === '' ? 'no meter named' : value}</b>: ${countOf(count, 'reading', this.mark)}.
            ${period === undefined ? nothing : this.renderOffset(period)}
          </li>`;
        })}
      </ul>
    </section>`;
  }

  private renderOffset({ percent, low, high, repairs }: ShiftSummary['offsets'][number]) {
    const text = (value: number): string => Math.abs(value).toFixed(1).replace('.', this.mark);
    const range = `95 % limits ${low < 0 ? '−' : ''}${text(low)} to ${high < 0 ? '−' : ''}${text(high)} %, ${countOf(repairs, 'repair', this.mark)}`;
    const isSure = low > 0 || high < 0;
    return html`${isSure ? '▲' : nothing} ${text(percent)} % ${percent < 0 ? 'low' : 'high'} against the other meters
    (${range}${isSure ? '' : '; may be chance'}).`;
  }

  private renderSetAside({ setAside }: ShiftSummary) {
    const listed = setAside.slice(0, LISTED);
    const rest = setAside.length - listed.length;
    return html`<section>
      <h2 id="aside">Which rows were set aside?</h2>
      ${
        listed.length === 0
          ? html`<p>None, in the files that hold this day's readings.</p>`
          : html`<div class="sideways" tabindex="0" role="region" aria-labelledby="aside">
              <table aria-labelledby="aside">
                <thead>
                  <tr>
                    <th scope="col">file</th>
                    <th scope="col" class="number">line</th>
                    <th scope="col">why</th>
                  </tr>
                </thead>
                <tbody>
                  ${listed.map(
                    ({ file, line, reason }) =>
                      html`<tr>
                        <td>${file}</td>
                        <td class="number">${line}</td>
                        <td class="wraps">${reason}</td>
                      </tr>`,
                  )}
                </tbody>
              </table>
            </div>`
      }
      ${rest === 0 ? nothing : html`<p>And ${countOf(rest, 'row', this.mark)} more.</p>`}
    </section>`;
  }

  private renderSummary(summary: ShiftSummary) {
    const { count, boards } = summary;
    return html`<p>
        ${countOf(boards.length, 'board', this.mark)}, ${countOf(count.readings, 'reading', this.mark)},
        ${countText(count.outOfBand, this.mark)} out of band.
      </p>
      ${this.renderBoards(summary)} ${this.renderCounts(summary)} ${this.renderMeters(summary)}
      ${this.renderSetAside(summary)} ${sheetCautions('For whoever goes on with these boards')}`;
  }

  private renderAnswer() {
    const { answer } = this.shift;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.status === 'pending') return html`<p class="quiet">Summing up the shift.</p>`;
    if (answer.value === undefined)
      return html`<p>No reading on the bench has a time, so there is no day to sum up.</p>`;
    return this.renderSummary(answer.value);
  }

  override render() {
    const { answer } = this.shift;
    const shown = answer.status === 'ready' && answer.value !== undefined ? dayText(answer.value.day) : this.day;
    return html`${sheetHead(
      { title: `Shift of ${shown}`, kind: 'Shift summary', back: [hashOf('repairs'), 'Back to the repairs'] },
      html`<label>Day <input type="date" .value=${shown} @change=${this.choose} /></label>`,
    )}
    ${this.renderAnswer()}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-sheet-shift': SheetShift;
  }
}

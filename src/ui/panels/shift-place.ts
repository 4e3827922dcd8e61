import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ImportRecord, SetAside, Shape } from '../../domain/import-record.ts';
import type { ShiftOverview } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import '../file-button.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';
import type { Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import './shift-beginning.ts';

const HELD: Readonly<Record<Shape, string>> = {
  readings: 'readings',
  repairs: 'repairs',
  bands: 'bands',
  unknown: 'nothing known',
};

const SEPARATOR_NAMES: ReadonlyMap<string, string> = new Map([
  [',', 'comma'],
  [';', 'semicolon'],
  ['\t', 'tab'],
  ['|', 'bar'],
]);

const PAGE = 100;

/** What the imports held, file by file, and every row that was set aside with its reason. */
@customElement('bt-shift-place')
export class ShiftPlace extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        margin: 1.5rem 0 2rem;
      }

      .note td {
        padding-inline-start: 1.25rem;
        font-size: var(--small);
        white-space: normal;
      }

      td.reason {
        min-width: 20rem;
      }

      td.content {
        min-width: 20rem;
      }

      li {
        margin: 0.25rem 0;
        overflow-wrap: anywhere;
      }

      .choice {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem 1rem;
        margin: 0;
        padding: 0;
        border: 0;
      }

      .choice legend {
        float: inline-start;
        padding: 0;
      }

      label {
        display: inline-flex;
        align-items: center;
        gap: 0.375rem;
        min-height: 1.5rem;
      }
    `,
  ];

  private readonly overview = new AnswerController<ShiftOverview>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.session.ask('shift', [], signal),
    keepsLast: true,
  }));

  @state() private firstSetAside = 0;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) route?: Route;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private turn(event: CustomEvent<number>): void {
    this.firstSetAside = event.detail;
  }

  private chooseMark(event: Event): void {
    this.session.writeNumbersWith((event.target as HTMLInputElement).value === ',' ? ',' : '.');
  }

  private renderSums({ imports }: ShiftOverview) {
    const { decimalMark, summary } = this.session.state;
    const sum = (of: 'rows' | 'taken' | 'setAside' | 'known'): string =>
      countText(imports.reduce((total, record) => total + record[of], 0), decimalMark); // prettier-ignore
    return html`<p>
      ${countOf(imports.length, 'file', decimalMark)} on the bench: ${sum('rows')} rows, of which ${sum('taken')} were
      taken, ${sum('setAside')} set aside and ${sum('known')} known already.
      ${
        summary === undefined
          ? nothing
          : html`They hold ${countOf(summary.readings, 'reading', decimalMark)} of
            ${countOf(summary.repairs, 'repair', decimalMark)}, and ${countOf(summary.bands, 'band', decimalMark)}.`
      }
    </p>`;
  }

  /** What became of each of the files brought in last; of the sample's own files the table below says enough. */
  private renderLast() {
    const { outcome, bench } = this.session.state;
    if (outcome === undefined || (bench === 'sample' && outcome.refused.length === 0)) return nothing;
    const { refused, records } = outcome;
    return html`<section aria-labelledby="last">
      <h2 id="last">What became of the files brought in last?</h2>
      <ul>
        ${refused.map(
          ({ file, reason }) => html`<li><b>${file}</b>: <span class="wrong">left out whole.</span> ${reason}</li>`,
        )}
        ${records.map((record) => html`<li><b>${record.file}</b>: ${this.sumOf(record)} ${record.notices.join(' ')}</li>`)}
      </ul>
    </section>`;
  }

  private sumOf({ rows, taken, setAside, known }: ImportRecord): string {
    const { decimalMark } = this.session.state;
    const text = (count: number): string => countText(count, decimalMark);
    return `${countOf(rows, 'row', decimalMark)}: ${text(taken)} taken, ${text(setAside)} set aside, ${text(known)} known already.`;
  }

  private renderRecord(record: ImportRecord) {
    const { decimalMark } = this.session.state;
    return html`<tr>
        <th scope="row">${record.file}</th>
        <td>${HELD[record.shape]}</td>
        <td class="number">${countText(record.rows, decimalMark)}</td>
        <td class="number">${countText(record.taken, decimalMark)}</td>
        <td class="number">${countText(record.setAside, decimalMark)}</td>
        <td class="number">${countText(record.known, decimalMark)}</td>
        <td class="number">${countText(record.noData, decimalMark)}</td>
        <td>${SEPARATOR_NAMES.get(record.separator) ?? record.separator}</td>
        <td>${record.encoding}</td>
      </tr>
      ${record.notices.map((notice) => html`<tr class="note"><td colspan="9">${notice}</td></tr>`)}`; // prettier-ignore
  }

  private renderImports({ imports }: ShiftOverview) {
    return html`<section aria-labelledby="held">
      <h2 id="held">What did each file hold?</h2>
      <p class="quiet">
        Rows are the sum of taken, set aside and known already; blank lines and headers are counted apart.
      </p>
      <div class="sideways">
        <table aria-labelledby="held">
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col">holds</th>
              <th scope="col" class="number">rows</th>
              <th scope="col" class="number">taken</th>
              <th scope="col" class="number">set aside</th>
              <th scope="col" class="number">known already</th>
              <th scope="col" class="number">no data</th>
              <th scope="col">separator</th>
              <th scope="col">encoding</th>
            </tr>
          </thead>
          <tbody>
            ${imports.map((record) => this.renderRecord(record))}
          </tbody>
        </table>
      </div>
    </section>`;
  }

  private renderSetAside(setAside: readonly SetAside[]) {
    const { decimalMark } = this.session.state;
    if (setAside.length === 0) return html`<p>Every row could be read: nothing was set aside.</p>`;
    const { items, first } = pageOf(setAside, this.firstSetAside, PAGE);
    return html`<section aria-labelledby="aside">
      <h2 id="aside">Which rows were set aside, and why?</h2>
      <p class="quiet">
        ${countOf(setAside.length, 'row', decimalMark)}. Mend them in the file and bring it in again: what is known
        already is not counted twice.
      </p>
      <div class="sideways">
        <table aria-labelledby="aside">
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col" class="number">line</th>
              <th scope="col">column</th>
              <th scope="col">why, and what to do</th>
              <th scope="col">content</th>
            </tr>
          </thead>
          <tbody>
            ${items.map(
              ({ file, line, column, content, reason }) =>
                html`<tr>
                  <td>${file}</td>
                  <td class="number">${line === 0 ? 'whole file' : line}</td>
                  <td>${column === '' ? 'whole row' : column}</td>
                  <td class="reason wraps">${reason}</td>
                  <td class="own-text content">${content}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <bt-paging
        .total=${setAside.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'rows set aside'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turn}
      ></bt-paging>
    </section>`;
  }

  private renderSettings() {
    const { decimalMark } = this.session.state;
    return html`<fieldset class="choice" @change=${this.chooseMark}>
      <legend>Numbers on screen:</legend>
      <label><input type="radio" name="mark" value="." .checked=${decimalMark === '.'} /> point, 12.5 V</label>
      <label><input type="radio" name="mark" value="," .checked=${decimalMark === ','} /> comma, 12,5 V</label>
    </fieldset>`;
  }

  private renderOverview() {
    const { answer } = this.overview;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    const overview = answer.value;
    if (overview === undefined) return html`<p class="quiet">Opening the bench.</p>`;
    if (overview.imports.length === 0) {
      return html`${this.renderLast()}<bt-shift-beginning .session=${this.session}></bt-shift-beginning>`;
    }
    return html`${this.renderSums(overview)} ${this.renderLast()} ${this.renderImports(overview)}
    ${this.renderSetAside(overview.setAside)}`;
  }

  override render() {
    return html`
      <h1>Shift</h1>
      ${this.renderOverview()}
      <p>Nothing is kept when this page closes: keep your files.</p>
      ${this.renderSettings()}
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-place': ShiftPlace;
  }
}

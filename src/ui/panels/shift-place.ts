import { LitElement, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { ImportRecord } from '../../domain/import-record.ts';
import type { ShiftOverview, UnknownName } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import type { Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import './file-plan-panel.ts';
import './names-list.ts';
import './set-aside-list.ts';
import './shift-beginning.ts';
import './shift-history.ts';
import './shift-imports.ts';
import './shift-memory.ts';
import { shiftPlaceStyles } from './shift-place.styles.ts';

/** Elements of the place to which its opening lines lead. */
type Target = 'bt-file-plan-panel' | 'bt-names-list' | 'bt-set-aside-list';

/** What is to be answered before files are read, what the imports held, and every row that was set aside with its reason. */
@customElement('bt-shift-place')
export class ShiftPlace extends LitElement {
  static override styles = [shared, shiftPlaceStyles];

  private readonly overview = new AnswerController<ShiftOverview>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.session.ask('shift', [], signal),
    keepsLast: true,
  }));

  private readonly names = new AnswerController<readonly UnknownName[]>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.session.ask('unknownNames', [], signal),
    keepsLast: true,
  }));

  /** The file that is asked about. */
  private asked: File | undefined;

  @query('h1') private readonly heading!: HTMLElement;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) route?: Route;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override updated(): void {
    const first = this.session.state.waiting[0];
    const before = this.asked;
    this.asked = first?.file;
    if (this.asked === before) return;
    const isAskedAgain = first?.replaces !== undefined;
    // An answered file takes the focus with it, and an import that is to be read otherwise is asked about away from its button.
    const isFocusLost = before !== undefined && document.activeElement === document.body;
    if (first !== undefined && (isAskedAgain || isFocusLost)) void this.goTo('bt-file-plan-panel');
    else if (isFocusLost) this.heading.focus();
  }

  private async goTo(target: Target): Promise<void> {
    const element = this.renderRoot.querySelector<LitElement>(target);
    await element?.updateComplete;
    const heading = element?.renderRoot.querySelector<HTMLElement>('h2');
    heading?.scrollIntoView({ block: 'start' });
    heading?.focus({ preventScroll: true });
  }

  private chooseMark(event: Event): void {
    this.session.writeNumbersWith((event.target as HTMLInputElement).value === ',' ? ',' : '.');
  }

  private renderSums({ imports }: ShiftOverview) {
    const { decimalMark, summary } = this.session.state;
    const sum = (of: 'rows' | 'taken' | 'setAside' | 'known'): number =>
      imports.reduce((total, record) => total + record[of], 0);
    const text = (of: 'setAside' | 'known'): string => countText(sum(of), decimalMark);
    const taken = sum('taken');
    return html`<p class="sums">
      ${countOf(imports.length, 'file', decimalMark)} on the bench: ${countOf(sum('rows'), 'row', decimalMark)}, of
      which ${countText(taken, decimalMark)} ${taken === 1 ? 'was' : 'were'} taken, ${text('setAside')} set aside and
      ${text('known')} known already.
      ${
        summary === undefined
          ? nothing
          : html`They hold ${countOf(summary.readings, 'reading', decimalMark)} of
            ${countOf(summary.repairs, 'repair', decimalMark)}, and ${countOf(summary.bands, 'band', decimalMark)}.`
      }
    </p>`;
  }

  /** What asks for an answer, each with the way to it. */
  private renderOpen(setAside: number, names: readonly UnknownName[]) {
    const { decimalMark, waiting } = this.session.state;
    const verb = (count: number, one: string, many: string): string => (count === 1 ? one : many);
    const open: readonly (readonly [Target, number, string, string])[] = [
      ['bt-file-plan-panel', waiting.length, 'file', `${verb(waiting.length, 'waits', 'wait')} for an answer`],
      ['bt-names-list', names.length, 'name', `${verb(names.length, 'is', 'are')} not known yet`],
      ['bt-set-aside-list', setAside, 'row', `${verb(setAside, 'is', 'are')} set aside`],
    ];
    const some = open.filter(([, count]) => count > 0);
    if (some.length === 0) return nothing;
    return html`<ul class="open" aria-label="What asks for an answer">
      ${some.map(
        ([target, count, noun, what]) =>
          html`<li>
            <button class="plain" type="button" @click=${() => this.goTo(target)}>
              ${countOf(count, noun, decimalMark)} ${what}
            </button>
          </li>`,
      )}
    </ul>`;
  }

  private renderWaiting() {
    const { waiting } = this.session.state;
    const [first] = waiting;
    if (first === undefined) return nothing;
    return html`<bt-file-plan-panel
      .session=${this.session}
      .waiting=${first}
      .count=${waiting.length}
    ></bt-file-plan-panel>`;
  }

  /** What became of each of the files brought in last; of the sample's own files the table below says enough. */
  private renderLast() {
    const { outcome, bench } = this.session.state;
    if (outcome === undefined || (bench === 'sample' && outcome.refused.length === 0)) return nothing;
    const { refused, records } = outcome;
    if (refused.length + records.length === 0) return nothing;
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

  private sumOf({ rows, taken, setAside, known, noData }: ImportRecord): string {
    const { decimalMark } = this.session.state;
    const text = (count: number): string => countText(count, decimalMark);
    const sum = `${countOf(rows, 'row', decimalMark)}: ${text(taken)} taken, ${text(setAside)} set aside, ${text(known)} known already.`;
    return noData === 0 ? sum : `${sum} ${countOf(noData, 'line', decimalMark)} without data.`;
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
    const { session } = this;
    const { answer } = this.overview;
    if (answer.status === 'failed')
      return html`${this.renderWaiting()}
        <p class="wrong">${answer.reason}</p>`;
    const overview = answer.value;
    if (overview === undefined) return html`<p class="quiet">Opening the bench.</p>`;
    const names = this.names.answer.status === 'failed' ? [] : (this.names.answer.value ?? []);
    const { imports, setAside } = overview;
    const isEmpty = imports.length === 0;
    return html`
      ${isEmpty ? nothing : this.renderSums(overview)} ${this.renderOpen(setAside.length, names)}
      ${this.renderWaiting()} ${this.renderLast()}
      ${
        isEmpty
          ? session.state.waiting.length > 0
            ? nothing
            : html`<bt-shift-beginning .session=${session}></bt-shift-beginning>`
          : html`<bt-names-list .session=${session} .names=${names}></bt-names-list>
              <bt-shift-imports .session=${session} .imports=${imports}></bt-shift-imports>
              <bt-set-aside-list .session=${session} .rows=${setAside}></bt-set-aside-list>`
      }
    `;
  }

  override render() {
    return html`
      <h1 tabindex="-1">Shift</h1>
      ${this.renderOverview()}
      <bt-shift-memory .session=${this.session}></bt-shift-memory>
      <bt-shift-history .session=${this.session}></bt-shift-history>
      ${this.renderSettings()}
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-place': ShiftPlace;
  }
}

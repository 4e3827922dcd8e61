import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Meter } from '../../domain/meter.ts';
import type { FacetValue } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { bandsHash, readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, dayText } from '../words.ts';
import { today } from './band-words.ts';
import { tableFormStyles } from './family-editor.styles.ts';
import { accuracyLines } from './meters-accuracy.ts';
import { meterDraftOf } from './meters-draft.ts';
import './meters-profile.ts';
import './meters-table.ts';

/** A meter that the log or a profile names. */
interface MeterLine {
  readonly meter: Meter;
  readonly readings: number;
}

/** The meters of the bench with how accurate they are, and the ways to say so: line by line, or as a table. */
@customElement('bt-meters-panel')
export class MetersPanel extends LitElement {
  static override styles = [
    shared,
    tableFormStyles,
    css`
      table.meters :is(th, td) {
        padding-inline-end: 1.5rem;
      }

      table.meters :is(th, td):last-child {
        inline-size: 100%;
      }
    `,
  ];

  private readonly meters = new AnswerController<readonly MeterLine[]>(this, () => ({
    key: this.revision,
    ask: (signal) => this.load(signal),
    keepsLast: true,
  }));

  /** The meter whose profile is open, by its name; without one, a new meter's is. */
  @state() private edited: { readonly meter: string | undefined } | undefined;

  @property({ attribute: false }) session!: Session;
  /** Tells one state of the bench from another. */
  @property({ attribute: false }) revision = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get mark() {
    return this.session.state.decimalMark;
  }

  private async load(signal: AbortSignal): Promise<readonly MeterLine[]> {
    const all = { filters: [], sort: [] };
    const [profiles, used] = await Promise.all([
      this.session.ask('meters', [], signal),
      this.session.ask('facet', [all, 'meter'], signal),
    ]);
    const names = new Set([...used.map(({ value }) => value), ...profiles.map(({ name }) => name)]);
    names.delete('');
    return [...names].map((name) => ({
      meter: profiles.find((meter) => meter.name === name) ?? { name, accuracies: [] },
      readings: used.find(({ value }: FacetValue) => value === name)?.count ?? 0,
    }));
  }

  private edit(meter: string | undefined): void {
    this.edited = { meter };
  }

  private close(): void {
    this.edited = undefined;
  }

  private renderDue(due: number | undefined) {
    if (due === undefined) return html`<span class="quiet">–</span>`;
    const isOver = dayText(due) < today();
    return html`${dayText(due)}${isOver ? html` <span class="wrong">overdue</span>` : nothing}`;
  }

  private renderMeter({ meter, readings }: MeterLine) {
    const { name, accuracies, overRangeMark, calibrationDue } = meter;
    const count = countText(readings, this.mark);
    const log = readingsHash({ filters: [{ field: 'meter', oneOf: [name] }] });
    return html`<tr>
      <th scope="row">${name}</th>
      <td class="number">
        ${readings === 0 ? html`<span class="quiet">0</span>` : html`<a href=${log} aria-label="${count} readings of ${name}">${count}</a>`}
      </td>
      <td>
        ${
          accuracies.length === 0
            ? html`<span class="quiet">unknown: its readings are held against the limits themselves</span>`
            : accuracyLines(accuracies, this.mark).map((line) => html`<div>${line}</div>`)
        }
        ${overRangeMark === undefined ? nothing : html`<div>shows “${overRangeMark}” above its range</div>`}
      </td>
      <td class="figures">${this.renderDue(calibrationDue)}</td>
      <td>
        <button
          class="plain"
          type="button"
          aria-label="Edit ${name}"
          @click=${() => {
            this.edit(name);
          }}
        >
          Edit
        </button>
      </td>
    </tr>`;
  }

  private renderMeters(lines: readonly MeterLine[]) {
    const { edited } = this;
    const known = lines.find(({ meter }) => meter.name === edited?.meter)?.meter;
    const unknown = lines.filter(({ meter }) => meter.accuracies.length === 0).length;
    const nothingYet = html`<p>No reading names a meter yet. One can be described before its first log comes in.</p>`;
    const table = html`<div class="sideways">
      <table class="meters" aria-labelledby="meters">
        <thead>
          <tr>
            <th scope="col">meter</th>
            <th scope="col" class="number">readings</th>
            <th scope="col">accuracy</th>
            <th scope="col">calibration due</th>
            <th scope="col"><span class="spoken">edit</span></th>
          </tr>
        </thead>
        <tbody>
          ${lines.map((line) => this.renderMeter(line))}
        </tbody>
      </table>
    </div>`;
    return html`<section aria-labelledby="meters">
        <h2 id="meters">How far may each meter be off?</h2>
        <p class="quiet">
          ${countOf(lines.length, 'meter', this.mark)}, ${countText(unknown, this.mark)} of unknown accuracy. A verdict
          near a limit is conditional within the meter’s uncertainty, where it is known; none is made up where it is
          not.
        </p>
        ${lines.length === 0 ? nothingYet : table}
        <p>
          <button
            type="button"
            @click=${() => {
              this.edit(undefined);
            }}
          >
            Add a meter
          </button>
        </p>
      </section>
      ${
        edited === undefined
          ? nothing
          : html`<bt-meter-profile
              .session=${this.session}
              .meter=${edited.meter}
              .stored=${meterDraftOf(known, this.mark)}
              .taken=${lines.map(({ meter }) => meter.name)}
              @profile-closed=${this.close}
            ></bt-meter-profile>`
      }
      <bt-meters-table .session=${this.session}></bt-meters-table>`;
  }

  override render() {
    const { answer } = this.meters;
    return html`<p class="crumbs"><a href=${bandsHash()}>Bands</a></p>
      <h1>Meters</h1>
      ${
        answer.status === 'failed'
          ? html`<p class="wrong" role="alert">${answer.reason}</p>`
          : answer.value === undefined
            ? html`<p class="quiet">Looking up the meters.</p>`
            : this.renderMeters(answer.value)
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-meters-panel': MetersPanel;
  }
}

import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Accuracy, Meter } from '../../domain/meter.ts';
import { MODE_UNITS, MODES, type Mode } from '../../domain/reading.ts';
import type { FacetValue } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { limitText } from '../band-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { bandsHash, readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { benchChanged } from './band-outcome.ts';
import { numberField } from './band-typed.ts';
import { tableFormStyles } from './family-editor.styles.ts';
import { ACCURACY_FIELDS, EMPTY_ACCURACY, accuracyDraftOf, readMeter, type AccuracyDraft } from './meters-draft.ts';

/** A meter that the log or a profile names. */
interface MeterLine {
  readonly meter: Meter;
  readonly readings: number;
}

/** A meter while its profile is typed; `known` is the name that it has already. */
interface MeterDraft {
  readonly known: string | undefined;
  readonly name: string;
  readonly lines: readonly AccuracyDraft[];
}

/**
 * The meters of the bench with how accurate they are, and a small table in which that is typed.
 * @fires bench-changed - detail: Outcome
 */
@customElement('bt-meters-panel')
export class MetersPanel extends LitElement {
  static override styles = [
    shared,
    tableFormStyles,
    css`
      section.profile {
        max-inline-size: 60rem;
        padding-block-start: 1rem;
        border-block-start: 1px solid var(--ink);
      }

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

  @state() private draft: MeterDraft | undefined;
  @state() private problem: string | undefined;

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

  private edit(meter: Meter | undefined): void {
    const lines = meter?.accuracies.map((accuracy) => accuracyDraftOf(accuracy, this.mark)) ?? [];
    this.draft = { known: meter?.name, name: meter?.name ?? '', lines: lines.length > 0 ? lines : [EMPTY_ACCURACY] };
    this.problem = undefined;
    void this.updateComplete.then(() =>
      this.renderRoot.querySelector<HTMLElement>('.profile :is(input, select)')?.focus(),
    );
  }

  private change(changes: Partial<MeterDraft>): void {
    if (this.draft !== undefined) this.draft = { ...this.draft, ...changes };
    this.problem = undefined;
  }

  private changeLine(at: number, changes: Partial<AccuracyDraft>): void {
    const lines = this.draft?.lines ?? [];
    this.change({ lines: lines.map((line, index) => (index === at ? { ...line, ...changes } : line)) });
  }

  private addLine(): void {
    const lines = this.draft?.lines ?? [];
    this.change({ lines: [...lines, { ...EMPTY_ACCURACY, mode: lines.at(-1)?.mode ?? 'DC volts' }] });
  }

  private close(): void {
    this.draft = undefined;
    this.problem = undefined;
  }

  private async save({ known, name, lines }: MeterDraft, all: readonly MeterLine[]): Promise<void> {
    const read = readMeter(name, lines, this.mark);
    if ('fault' in read) {
      this.problem = read.fault;
      return;
    }
    const { meter } = read;
    if (known === undefined && all.some((one) => one.meter.name === meter.name)) {
      this.problem = `The meter ${meter.name} is there already: edit that one.`;
      return;
    }
    try {
      const rejudged = await this.session.ask('setMeter', [meter]);
      this.close();
      const what = meter.accuracies.length === 0 ? `The accuracy of ${meter.name} is unknown now.` : `${meter.name} has ${countOf(meter.accuracies.length, 'range', this.mark)} now.`; // prettier-ignore
      this.dispatchEvent(benchChanged(what, rejudged));
    } catch (error) {
      this.problem = error instanceof Error ? error.message : String(error);
    }
  }

  private accuracyText({ mode, upTo, percent, counts, resolution }: Accuracy): string {
    const unit = MODE_UNITS[mode];
    const digit = resolution === undefined ? '' : `, last digit ${limitText(resolution, unit, this.mark)}`;
    return `${mode} up to ${limitText(upTo, unit, this.mark)}: ± (${numberField(percent, this.mark)} % + ${countOf(counts, 'count', this.mark)})${digit}`;
  }

  private renderMeter({ meter, readings }: MeterLine) {
    const { name, accuracies } = meter;
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
            : accuracies.map((accuracy) => html`<div>${this.accuracyText(accuracy)}</div>`)
        }
      </td>
      <td>
        <button
          class="plain"
          type="button"
          aria-label="Edit ${name}"
          @click=${() => {
            this.edit(meter);
          }}
        >
          Edit
        </button>
      </td>
    </tr>`;
  }

  private renderLine(line: AccuracyDraft, at: number) {
    return html`<tr>
      <td>
        <select
          aria-label="Mode of line ${at + 1}"
          @change=${(event: Event) => {
            this.changeLine(at, { mode: (event.target as HTMLSelectElement).value as Mode });
          }}
        >
          ${MODES.map((mode) => html`<option value=${mode} .selected=${mode === line.mode}>${mode}</option>`)}
        </select>
      </td>
      ${ACCURACY_FIELDS.map(
        ([field, title]) =>
          html`<td class="short">
            <input
              type="text"
              autocomplete="off"
              aria-label="${title}, line ${at + 1}"
              .value=${line[field]}
              @input=${(event: Event) => {
                this.changeLine(at, { [field]: (event.target as HTMLInputElement).value });
              }}
            />
          </td>`,
      )}
      <td>
        <button
          class="plain"
          type="button"
          aria-label="Remove line ${at + 1}"
          @click=${() => {
            this.change({ lines: this.draft?.lines.filter((_, index) => index !== at) ?? [] });
          }}
        >
          Remove
        </button>
      </td>
    </tr>`;
  }

  private renderProfile(draft: MeterDraft, all: readonly MeterLine[]) {
    const { known, name, lines } = draft;
    return html`<section class="profile" aria-labelledby="profile">
      <h2 id="profile">How accurate is ${known ?? 'the new meter'}?</h2>
      <p class="quiet">
        One line for each mode and range, as the data sheet states it: ± (% of reading + counts of the last digit). The
        last digit tells ranges apart, and may be left open. Without lines the accuracy is unknown.
      </p>
      ${
        known === undefined
          ? html`<div class="heading">
              <label
                >name
                <input
                  type="text"
                  autocomplete="off"
                  .value=${name}
                  @input=${(event: Event) => {
                    this.change({ name: (event.target as HTMLInputElement).value });
                  }}
              /></label>
            </div>`
          : nothing
      }
      <div class="sideways">
        <table aria-labelledby="profile">
          <thead>
            <tr>
              <th scope="col">mode</th>
              ${ACCURACY_FIELDS.map(([, title]) => html`<th scope="col">${title}</th>`)}
              <th scope="col"><span class="spoken">remove</span></th>
            </tr>
          </thead>
          <tbody>
            ${lines.map((line, at) => this.renderLine(line, at))}
          </tbody>
        </table>
      </div>
      <div class="actions">
        <button class="main" type="button" @click=${() => this.save(draft, all)}>Save the meter</button>
        <button type="button" @click=${this.addLine}>Add a line</button>
        <button class="plain" type="button" @click=${this.close}>Leave it</button>
        ${this.problem === undefined ? nothing : html`<span class="wrong" role="alert">${this.problem}</span>`}
      </div>
    </section>`;
  }

  private renderMeters(lines: readonly MeterLine[]) {
    const unknown = lines.filter(({ meter }) => meter.accuracies.length === 0).length;
    const nothingYet = html`<p>No reading names a meter yet. One can be described before its first log comes in.</p>`;
    const table = html`<div class="sideways">
      <table class="meters" aria-labelledby="meters">
        <thead>
          <tr>
            <th scope="col">meter</th>
            <th scope="col" class="number">readings</th>
            <th scope="col">accuracy</th>
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
      ${this.draft === undefined ? nothing : this.renderProfile(this.draft, lines)}`;
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

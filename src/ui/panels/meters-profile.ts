import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { errorText } from '../../domain/error-text.ts';
import { MODES, type Mode } from '../../domain/reading.ts';
import type { Session } from '../../session/session.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import { benchChanged } from './band-outcome.ts';
import { tableFormStyles } from './family-editor.styles.ts';
import { ACCURACY_FIELDS, EMPTY_ACCURACY, readMeter, type AccuracyDraft, type MeterDraft } from './meters-draft.ts';

/**
 * The profile of one meter while it is typed, a line for each mode and range.
 * @fires bench-changed - detail: Outcome
 * @fires profile-closed - it was saved, or left
 */
@customElement('bt-meter-profile')
export class MeterProfile extends LitElement {
  static override styles = [
    shared,
    tableFormStyles,
    css`
      section {
        max-inline-size: 60rem;
        padding-block-start: 1rem;
        border-block-start: 1px solid var(--ink);
      }

      input.mark {
        inline-size: 6rem;
      }
    `,
  ];

  @state() private draft!: MeterDraft;
  @state() private problem: string | undefined;

  @property({ attribute: false }) session!: Session;
  /** What is typed at first. */
  @property({ attribute: false }) first!: MeterDraft;
  /** Names that a new meter cannot have. */
  @property({ attribute: false }) taken: readonly string[] = [];

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('first')) return;
    this.draft = this.first;
    this.problem = undefined;
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (changed.has('first')) this.renderRoot.querySelector<HTMLElement>('input, select')?.focus();
  }

  private change(changes: Partial<MeterDraft>): void {
    this.draft = { ...this.draft, ...changes };
    this.problem = undefined;
  }

  private changeLine(at: number, changes: Partial<AccuracyDraft>): void {
    const { lines } = this.draft;
    this.change({ lines: lines.map((line, index) => (index === at ? { ...line, ...changes } : line)) });
  }

  private addLine(): void {
    const { lines } = this.draft;
    this.change({ lines: [...lines, { ...EMPTY_ACCURACY, mode: lines.at(-1)?.mode ?? 'DC volts' }] });
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('profile-closed'));
  }

  private async save(): Promise<void> {
    const { decimalMark } = this.session.state;
    const read = readMeter(this.draft, decimalMark);
    if ('fault' in read) {
      this.problem = read.fault;
      return;
    }
    const { meter } = read;
    if (this.draft.known === undefined && this.taken.includes(meter.name)) {
      this.problem = `The meter ${meter.name} is there already: edit that one.`;
      return;
    }
    try {
      const rejudged = await this.session.ask('setMeters', [[meter]]);
      const what = meter.accuracies.length === 0 ? `The accuracy of ${meter.name} is unknown now.` : `${meter.name} has ${countOf(meter.accuracies.length, 'range', decimalMark)} now.`; // prettier-ignore
      this.dispatchEvent(benchChanged(what, rejudged));
      this.close();
    } catch (error) {
      this.problem = errorText(error);
    }
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
            this.change({ lines: this.draft.lines.filter((_, index) => index !== at) });
          }}
        >
          Remove
        </button>
      </td>
    </tr>`;
  }

  override render() {
    const { known, name, overRangeMark, calibrationDue, lines } = this.draft;
    return html`<section aria-labelledby="profile">
      <h2 id="profile">How accurate is ${known ?? 'the new meter'}?</h2>
      <p class="quiet">
        One line for each mode and range, as the data sheet states it: ± (% of reading + counts of the last digit). The
        last digit tells ranges apart, and may be left open. Without lines the accuracy is unknown. An over-range mark
        is needed only where it is none of the usual ones, such as OL or 1.
      </p>
      <div class="heading">
        ${
          known === undefined
            ? html`<label
                >name
                <input
                  type="text"
                  autocomplete="off"
                  .value=${name}
                  @input=${(event: Event) => {
                    this.change({ name: (event.target as HTMLInputElement).value });
                  }}
              /></label>`
            : nothing
        }
        <label
          >shows over-range as
          <input
            class="mark"
            type="text"
            autocomplete="off"
            placeholder="OL"
            .value=${overRangeMark}
            @input=${(event: Event) => {
              this.change({ overRangeMark: (event.target as HTMLInputElement).value });
            }}
        /></label>
        <label
          >calibration due
          <input
            type="date"
            .value=${calibrationDue}
            @input=${(event: Event) => {
              this.change({ calibrationDue: (event.target as HTMLInputElement).value });
            }}
        /></label>
      </div>
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
        <button class="main" type="button" @click=${this.save}>Save the meter</button>
        <button type="button" @click=${this.addLine}>Add a line</button>
        <button class="plain" type="button" @click=${this.close}>Leave it</button>
        ${this.problem === undefined ? nothing : html`<span class="wrong" role="alert">${this.problem}</span>`}
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-meter-profile': MeterProfile;
  }
}

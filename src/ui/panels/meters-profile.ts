import { css, html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MODES, type Mode } from '../../domain/reading.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { DraftController } from '../controllers/draft-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import { benchChanged } from './band-outcome.ts';
import { changedElsewhere } from './changed-elsewhere.ts';
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

  private readonly making = new ChangeController(this);
  private readonly drafts = new DraftController<MeterDraft>(this, () => ({
    subject: this.meter ?? '',
    draft: this.stored,
  }));

  @property({ attribute: false }) session!: Session;
  /** The meter that is known; undefined for a new one. */
  @property({ attribute: false }) meter: string | undefined;
  /** Its profile as it is stored. */
  @property({ attribute: false }) stored!: MeterDraft;
  /** Names that a new meter cannot have. */
  @property({ attribute: false }) taken: readonly string[] = [];

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('meter')) this.making.clear();
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (changed.has('meter') || changed.has('session'))
      this.renderRoot.querySelector<HTMLElement>('input, select')?.focus();
  }

  private get draft(): MeterDraft {
    return this.drafts.draft ?? this.stored;
  }

  private change(changes: Partial<MeterDraft>): void {
    this.drafts.type({ ...this.draft, ...changes });
    this.making.clear();
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
      this.making.refuse(read.fault);
      return;
    }
    const { meter } = read;
    if (this.draft.known === undefined && this.taken.includes(meter.name)) {
      this.making.refuse(`The meter ${meter.name} is there already: edit that one.`);
      return;
    }
    const made = await this.making.make(() => this.session.ask('setMeters', [[meter]]));
    if (made === undefined) return;
    const what = meter.accuracies.length === 0 ? `The accuracy of ${meter.name} is unknown now.` : `${meter.name} has ${countOf(meter.accuracies.length, 'range', decimalMark)} now.`; // prettier-ignore
    this.dispatchEvent(benchChanged(what, made.result));
    this.close();
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
      ${changedElsewhere(this.session, this.drafts, known ?? name, { kind: 'meter', meter: known ?? '' })}
      ${this.making.faultLine()}
      <div class="actions">
        <button
          class="main"
          type="button"
          ?disabled=${this.making.isBusy || this.drafts.isOutdated}
          @click=${this.save}
        >
          Save the meter
        </button>
        <button type="button" @click=${this.addLine}>Add a line</button>
        <button class="plain" type="button" @click=${this.close}>Leave it</button>
      </div>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-meter-profile': MeterProfile;
  }
}

import { LitElement, css, html } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { dischargeTime, TOUCH_LIMIT } from '../../domain/discharge.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { shared } from '../styles/shared.styles.ts';
import { durationText } from '../words.ts';
import { typedNumber } from './repair-numbers.ts';

/** What was typed of a family's bulk capacitor: microfarads, kilohms. */
interface Typed {
  readonly microfarads: string;
  readonly kilohms: string;
}

/** What was typed for each family, for as long as the page is open. */
const remembered = new Map<string, Typed>();

/** How long a bulk capacitor takes to fall to the limit of touch by its own bleeder, from what is typed in. */
@customElement('bt-repair-discharge')
export class RepairDischarge extends LitElement {
  static override styles = [
    shared,
    css`
      .fields {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1.5rem;
        margin: 0.5rem 0;
      }

      input {
        width: 7ch;
        text-align: end;
      }
    `,
  ];

  /** The voltage as it was typed; undefined until then. */
  @state() private volts: string | undefined;

  @property({ attribute: false }) family = '';
  /** Volts that the bulk capacitor was last read at under power, as text; empty where it was not. */
  @property({ attribute: false }) read = '';
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  private get typed(): Typed {
    return remembered.get(this.family) ?? { microfarads: '', kilohms: '' };
  }

  private remember(changes: Partial<Typed>): void {
    remembered.set(this.family, { ...this.typed, ...changes });
    this.requestUpdate();
  }

  private readonly takeVolts = (text: string): void => {
    this.volts = text;
  };

  private renderField(id: string, name: string, unit: string, value: string, take: (text: string) => void) {
    return html`<span>
      <label for=${id}>${name}</label>
      <input
        id=${id}
        type="text"
        inputmode="decimal"
        autocomplete="off"
        .value=${value}
        @input=${(event: Event) => {
          take((event.target as HTMLInputElement).value);
        }}
      />
      ${unit}
    </span>`;
  }

  private renderAnswer(volts: string) {
    const { microfarads, kilohms } = this.typed;
    if ([microfarads, kilohms, volts].some((text) => text.trim() === ''))
      return 'Type all three to see how long it takes.';
    const [farads, ohms, start] = [typedNumber(microfarads) * 1e-6, typedNumber(kilohms) * 1e3, typedNumber(volts)];
    if (!(farads > 0) || !(ohms > 0) || !(start >= 0))
      return 'One of these is no number above zero: write it as 120 or 4.7.';
    if (start <= TOUCH_LIMIT) return `That is ${TOUCH_LIMIT}\u00a0V or less already.`;
    const time = durationText(dischargeTime(farads, ohms, start), this.decimalMark);
    return `About ${time} from ${volts.trim()}\u00a0V to ${TOUCH_LIMIT}\u00a0V d.c., if the bleeder is whole.`;
  }

  override render() {
    const { microfarads, kilohms } = this.typed;
    const volts = this.volts ?? this.read;
    return html`<h2>How long does the bulk capacitor stay charged?</h2>
      <div class="fields">
        ${this.renderField('capacitance', 'Capacitance', 'µF', microfarads, (text) => {
          this.remember({ microfarads: text });
        })}
        ${this.renderField('bleeder', 'Bleeder', 'kΩ', kilohms, (text) => {
          this.remember({ kilohms: text });
        })}
        ${this.renderField('start', 'Charged to', 'V', volts, this.takeVolts)}
      </div>
      <p role="status">${this.renderAnswer(volts)}</p>
      <p>
        <span class="wrong">▲</span> Only a measurement counts. A bleeder can be open, and a capacitor can be larger
        than marked: discharge it through a resistor, then measure it.
        <span class="quiet">
          V·e<sup>−t/RC</sup>; up to 60 V d.c. is the limit of touch in IEC 62368-1 (ES1). What is typed is remembered
          for ${this.family === '' ? 'this family' : this.family} while the page is open.
        </span>
      </p>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-discharge': RepairDischarge;
  }
}

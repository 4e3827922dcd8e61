import { css, html, LitElement } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { GoodRule } from '../../domain/good-rule.ts';
import { shared } from '../styles/shared.styles.ts';
import { heldText } from './good-rule-words.ts';

/** For how long a board may be asked to have stayed away, in days. */
const HELD_DAYS = [0, 30, 90, 180, 365] as const;

/**
 * Which past boards count as known good, said and chosen.
 * @fires rule-changed - detail: GoodRule, with what was chosen before it was kept
 */
@customElement('bt-band-good-rule')
export class BandGoodRule extends LitElement {
  static override styles = [
    shared,
    css`
      :host {
        display: block;
        margin-block: 0.5rem 0.75rem;
      }

      div {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1.25rem;
      }

      label {
        display: inline-flex;
        align-items: baseline;
        gap: 0.375rem;
        min-block-size: 1.5rem;
      }
    `,
  ];

  @property({ attribute: false }) rule!: GoodRule;

  private change(changes: Partial<GoodRule>): void {
    this.rule = { ...this.rule, ...changes };
    this.dispatchEvent(new CustomEvent('rule-changed', { detail: this.rule, bubbles: true, composed: true }));
  }

  private chooseDays(event: Event): void {
    this.change({ heldDays: Number((event.target as HTMLSelectElement).value) });
  }

  private tickWithoutFault(event: Event): void {
    this.change({ withoutFault: (event.target as HTMLInputElement).checked });
  }

  private tickNewParts(event: Event): void {
    this.change({ newParts: (event.target as HTMLInputElement).checked });
  }

  override render() {
    const { heldDays, withoutFault, newParts } = this.rule;
    return html`<div role="group" aria-label="Which boards are known good">
      <label
        >Known good: returned working, and has not come back
        <select @change=${this.chooseDays}>
          ${HELD_DAYS.map(
            (days) => html`<option value=${days} .selected=${days === heldDays}>${heldText(days)}</option>`,
          )}
        </select></label
      >
      <label
        ><input type="checkbox" .checked=${withoutFault} @change=${this.tickWithoutFault} /> also boards without a fault
        found</label
      >
      <label
        ><input type="checkbox" .checked=${newParts} @change=${this.tickNewParts} /> also new parts measured
        beside</label
      >
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-band-good-rule': BandGoodRule;
  }
}

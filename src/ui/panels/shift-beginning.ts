import { LitElement, css, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Session } from '../../session/session.ts';
import '../file-button.ts';
import { shared } from '../styles/shared.styles.ts';

/** A reading in the project's own long form: each column with its cell. */
const EXAMPLE = [
  ['time', '2026-03-14T09:59:33'],
  ['repair', 'T-0131'],
  ['family', 'HERON-48'],
  ['point', '12V main'],
  ['stage', 'live'],
  ['mode', 'DC volts'],
  ['reading', '12.58'],
  ['unit', 'V'],
  ['meter', 'M1'],
] as const;

/** What an empty bench says: how to begin. */
@customElement('bt-shift-beginning')
export class ShiftBeginning extends LitElement {
  static override styles = [
    shared,
    css`
      :host {
        margin: 1rem 0;
      }

      .example {
        width: auto;
        margin: 0.25rem 0 1rem;
        font-size: var(--small);
      }

      .example :is(th, td):last-child {
        width: auto;
      }
    `,
  ];

  @property({ attribute: false }) session!: Session;

  private openSample(): void {
    void this.session.openSample();
  }

  override render() {
    return html`
      <h2>Nothing has been brought in yet</h2>
      <p>
        Drop the files of a shift anywhere on this page, or choose them. A log is a CSV file with one reading a row:
        what was probed (repair, family, point, stage, mode) and what the meter showed. Separators, decimal marks and
        units are found out from the file.
      </p>
      <div class="sideways">
        <table class="example" aria-label="A log of one reading">
          <thead>
            <tr>
              ${EXAMPLE.map(([column]) => html`<th scope="col">${column}</th>`)}
            </tr>
          </thead>
          <tbody>
            <tr>
              ${EXAMPLE.map(([, cell]) => html`<td class="figures">${cell}</td>`)}
            </tr>
          </tbody>
        </table>
      </div>
      <p>
        To have readings judged, bring in a table of bands as well: family, point, mode, and what the reading should be.
        A table of repairs adds complaints, outcomes and the parts that were replaced.
      </p>
      <p><bt-file-button .session=${this.session}></bt-file-button></p>
      <p>
        To look around first,
        <button class="plain" type="button" @click=${this.openSample}>open the invented sample</button>.
      </p>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-beginning': ShiftBeginning;
  }
}

import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Verdict } from '../../domain/verdict.ts';
import type { Session } from '../../session/session.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import type { Rejudged } from '../../session/answers.ts';

/** What was changed, as a sentence, and what that did to past readings where anything was judged again. */
export interface Outcome {
  readonly what: string;
  readonly rejudged?: Rejudged | undefined;
  /** Whether it can be taken back. */
  readonly undoable: boolean;
}

/** Told by whoever has changed bands, families or meters. */
export function benchChanged(what: string, rejudged?: Rejudged): CustomEvent<Outcome> {
  const detail: Outcome = { what, rejudged, undoable: true };
  return new CustomEvent('bench-changed', { detail, bubbles: true, composed: true });
}

const SIGNS: Readonly<Record<Verdict, string>> = {
  'no band': '·',
  'not judged': '·',
  pass: '✓',
  'conditional pass': '◇',
  'conditional fail': '◆',
  fail: '▼▲',
};
/** More repairs than this are folded away. */
const MOST_SHOWN = 24;

/**
 * What an accepted change did to the verdicts of past readings, and the way back.
 * @fires undo-wanted - the change is to be taken back
 */
@customElement('bt-band-outcome')
export class BandOutcome extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        margin: 0 0 1.5rem;
        padding: 0.75rem 0 0.75rem 1rem;
        border-inline-start: 3px solid var(--blue);
      }

      .head {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1.5rem;
      }

      .head p {
        margin: 0;
      }

      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 0.125rem 1.75rem;
        margin: 0.5rem 0 0;
        padding: 0;
        list-style: none;
      }

      .repairs {
        gap: 0.125rem 0.875rem;
      }

      .repairs a {
        display: inline-block;
        min-block-size: 1.5rem;
      }

      summary {
        min-block-size: 1.5rem;
        cursor: pointer;
      }
    `,
  ];

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) outcome!: Outcome;

  private undo(): void {
    this.dispatchEvent(new CustomEvent('undo-wanted'));
  }

  private renderChanges({ readings, changes }: Rejudged) {
    const { decimalMark } = this.session.state;
    if (readings === 0) return html`<p class="quiet">No past reading changed its verdict.</p>`;
    return html`<ul aria-label="Verdicts that changed">
      ${changes.map(
        ({ from, to, readings: count }) =>
          html`<li>
            <span class="quiet">${SIGNS[from]} ${from}</span> → ${SIGNS[to]} ${to}:
            <b class="number">${countText(count, decimalMark)}</b>
          </li>`,
      )}
    </ul>`;
  }

  private renderRepairs(repairs: readonly string[]) {
    if (repairs.length === 0) return nothing;
    const links = html`<ul class="repairs" aria-label="Repairs with a changed verdict">
      ${repairs.map((repair) => html`<li><a class="figures" href=${hashOf('repairs', repair)}>${repair}</a></li>`)}
    </ul>`;
    if (repairs.length <= MOST_SHOWN) return links;
    const repairsText = countOf(repairs.length, 'repair', this.session.state.decimalMark);
    const most = repairs.length === 100 ? `the first ${repairsText}` : repairsText;
    return html`<details>
      <summary>In ${most}</summary>
      ${links}
    </details>`;
  }

  override render() {
    const { what, rejudged, undoable } = this.outcome;
    const { decimalMark } = this.session.state;
    const judged = rejudged === undefined || rejudged.readings === 0 ? '' : ` ${countOf(rejudged.readings, 'past reading', decimalMark)} changed ${rejudged.readings === 1 ? 'its' : 'their'} verdict.`; // prettier-ignore
    return html`<section aria-label="What changed">
      <div class="head">
        <p role="status"><b>${what}</b>${judged}</p>
        ${undoable ? html`<button type="button" @click=${this.undo}>Undo</button>` : nothing}
      </div>
      ${rejudged === undefined ? nothing : html`${this.renderChanges(rejudged)} ${this.renderRepairs(rejudged.repairs)}`}
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-band-outcome': BandOutcome;
  }
}

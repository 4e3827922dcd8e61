import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { Band, Expectation } from '../../domain/band.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { expectationText, limitsText } from '../band-text.ts';
import { bandsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import type { ProposalLine, Trial } from '../../session/answers.ts';
import { bandEditorStyles } from './band-editor.styles.ts';
import type { Opened } from './band-opened.ts';
import { trialText } from './band-words.ts';

/**
 * What a band would have done to past boards, beside the present one; what could be learned instead; what it was before.
 * @fires proposal-taken - detail: Expectation, the learned one
 */
@customElement('bt-band-results')
export class BandResults extends LitElement {
  static override styles = [shared, bandEditorStyles];

  @property({ attribute: false }) opened!: Opened;
  /** What the draft expects; undefined while it says nothing. */
  @property({ attribute: false }) expects: Expectation | undefined;
  @property({ attribute: false }) trial: Trial | undefined;
  @property({ attribute: false }) proposal: ProposalLine | undefined;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  private text(expects: Expectation): string {
    return expectationText(expects, MODE_UNITS[this.opened.check.mode], this.decimalMark);
  }

  private renderRow(name: string, expects: Expectation | undefined, trial: Trial | undefined, none: string) {
    const untried = this.opened.points.value.length === 0 ? 'no past board to try' : 'being tried';
    const waits = expects === undefined ? none : untried;
    const cells =
      trial === undefined
        ? html`<td class="quiet wraps" colspan="2">${waits}</td>`
        : html`<td class="number">${trialText(trial.goodStopped, this.decimalMark)}</td>
            <td class="number">${trialText(trial.badLetThrough, this.decimalMark)}</td>`;
    return html`<tr>
      <th scope="row">${name}</th>
      <td class="wraps">${expects === undefined ? nothing : this.text(expects)}</td>
      ${cells}
    </tr>`;
  }

  private renderTrial() {
    const { points, present } = this.opened;
    return html`<section aria-labelledby="trial">
      <h2 id="trial">What would it have done to past boards?</h2>
      <p class="quiet">
        A good board is stopped where a reading lies outside; a bad one is let through where all lie within. In brackets
        the share, with 95 % confidence (Wilson).
      </p>
      <div class="sideways" tabindex="0" role="region" aria-label="Bands tried on past boards">
        <table aria-labelledby="trial">
          <thead>
            <tr>
              <th scope="col">band</th>
              <th scope="col">should read</th>
              <th scope="col" class="number">good boards stopped</th>
              <th scope="col" class="number">bad boards let through</th>
            </tr>
          </thead>
          <tbody>
            ${this.renderRow('being set', this.expects, this.expects && this.trial, 'not complete yet')}
            ${this.renderRow('present', points.band?.expects, present, 'there is none')}
          </tbody>
        </table>
      </div>
      ${this.renderProposal()}
    </section>`;
  }

  private renderProposal() {
    const { proposal: line } = this;
    if (line === undefined) return nothing;
    if (line.proposal === undefined) return html`<p class="proposal quiet">${line.reason}</p>`;
    const { band, count, overRange } = line.proposal;
    return html`<p class="proposal">
      Learned from ${countOf(count + overRange, 'good reading', this.decimalMark)}: ${this.text(band.expects)}.
      <button
        class="plain"
        type="button"
        @click=${() => this.dispatchEvent(new CustomEvent('proposal-taken', { detail: band.expects }))}
      >
        Take it over
      </button>
      · <a href=${bandsHash('proposals', this.opened.check)}>How it was learned</a>
    </p>`;
  }

  private renderHistory() {
    const { check, history, points } = this.opened;
    if (history.length === 0 && points.band === undefined) return nothing;
    const unit = MODE_UNITS[check.mode];
    const row = ({ date, expects, basis, author }: Band, note: string) =>
      html`<tr>
        <td class="figures">${date ?? '–'}</td>
        <td class="wraps">
          ${this.text(expects)} <span class="quiet">${limitsText(expects, unit, this.decimalMark)}</span>
        </td>
        <td>${basis}</td>
        <td>${author ?? '–'} <span class="quiet">${note}</span></td>
      </tr>`;
    return html`<section aria-labelledby="history">
      <h2 id="history">What was set here, and by whom?</h2>
      <div class="sideways" tabindex="0" role="region" aria-label="Bands set here">
        <table aria-labelledby="history">
          <thead>
            <tr>
              <th scope="col">set on</th>
              <th scope="col">should read</th>
              <th scope="col">basis</th>
              <th scope="col">set by</th>
            </tr>
          </thead>
          <tbody>
            ${points.band === undefined ? nothing : row(points.band, '(present)')}
            ${history.map((band) => row(band, ''))}
          </tbody>
        </table>
      </div>
    </section>`;
  }

  override render() {
    return html`<div class="results">${this.renderTrial()} ${this.renderHistory()}</div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-band-results': BandResults;
  }
}

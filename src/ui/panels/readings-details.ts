import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { ReadingRow } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText } from '../band-text.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { bandWay, originWay, repairWay } from '../grid/row-ways.ts';
import { factsStyles } from '../styles/facts.styles.ts';
import { shared } from '../styles/shared.styles.ts';
import { verdictText } from '../verdict-text.ts';
import './readings-history.ts';
import { limitNames, marginText, readingWithUncertainty, verdictArithmetic } from './readings-explain.ts';

/**
 * All that is known of one reading: its band in words and where that comes from, the arithmetic of its verdict, and the
 * ways to its repair, its band, and its file.
 * @fires details-closed
 */
@customElement('bt-readings-details')
export class ReadingsDetails extends LitElement {
  static override styles = [
    shared,
    factsStyles,
    tapeStyles,
    css`
      section {
        display: grid;
        gap: 0.5rem;
        padding-block: 0.75rem;
        overflow-wrap: anywhere;
      }

      header {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1.5rem;
      }

      header .tape {
        align-self: center;
      }

      header button {
        margin-inline-start: auto;
      }

      .reading {
        font-family: var(--font-number);
      }

      p {
        margin: 0;
      }

      .facts {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 2rem;
        margin: 0;
        font-size: var(--small);
      }
    `,
  ];

  /** The reading; undefined where none is current. */
  @property({ attribute: false }) row: ReadingRow | undefined;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';
  /** Where its history is asked; without it none is shown. */
  @property({ attribute: false }) session: Session | undefined;

  private close(): void {
    this.dispatchEvent(new CustomEvent('details-closed'));
  }

  private facts(row: ReadingRow): readonly (readonly [string, unknown])[] {
    const { band, limits, mode, origin } = row;
    const unit = MODE_UNITS[mode];
    const way = bandWay(row);
    const set = [band?.author, band?.date].filter((text) => text !== undefined).join(', ');
    return [
      ['band', band === undefined ? html`none, <a href=${way}>set one</a>` : html`<a href=${way}>${expectationText(band.expects, unit, this.decimalMark)}</a>`],
      ['limits', limits === undefined ? '' : limitNames(row, this.decimalMark)],
      ['basis', band?.basis ?? ''],
      ['set by', set],
      ['margin', marginText(row, this.decimalMark) ?? ''],
      ['repair', html`<a href=${repairWay(row)}>${row.repair}</a>`],
      ['meter', row.meter],
      ['from', html`<a href=${originWay(row)}>${origin.file}, line ${origin.line}</a>`],
    ]; // prettier-ignore
  }

  override render() {
    const { row, decimalMark } = this;
    if (row === undefined) return html`<section><p class="quiet">No reading is current.</p></section>`;
    const { sign, word, wrong } = verdictText(row.verdict, row.word);
    return html`<section aria-label="About this reading">
      <header>
        <h2>${row.family} ${row.point}, ${row.stage}${row.specimen === 'board' ? nothing : `, ${row.specimen}`}</h2>
        <span class="reading">${readingWithUncertainty(row, decimalMark)}</span>
        ${tape(row)}
        <span class=${wrong ? 'wrong' : ''}><span aria-hidden="true">${sign}</span> ${word}</span>
        <button type="button" @click=${this.close}>Close</button>
      </header>
      <p>${verdictArithmetic(row, decimalMark)}</p>
      <dl class="facts">
        ${this.facts(row).map(([name, value]) =>
          value === ''
            ? nothing
            : html`<div>
                <dt>${name}</dt>
                <dd>${value}</dd>
              </div>`,
        )}
      </dl>
      <bt-readings-history .session=${this.session} .row=${row}></bt-readings-history>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-details': ReadingsDetails;
  }
}

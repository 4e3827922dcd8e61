import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { HeadCount } from '../../domain/file-plan.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, minuteText } from '../words.ts';

/** Reasons that are named; rarer ones are counted together. */
const NAMED = 3;

/** What the answers so far would do with the rows: how many are read and set aside, for what reasons, and from when to when they are. */
@customElement('bt-file-plan-count')
export class FilePlanCount extends LitElement {
  static override styles = [
    shared,
    css`
      p,
      ul {
        max-width: 90ch;
        margin: 0 0 0.25rem;
      }
    `,
  ];

  @property({ attribute: false }) count: HeadCount | undefined;
  @property({ attribute: false }) decimalMark!: DecimalMark;

  private summary({ rows, taken, setAside, isWhole }: HeadCount): string {
    const of = countOf(rows, 'row', this.decimalMark);
    const aside = setAside.reduce((sum, reason) => sum + reason.rows, 0);
    const first = isWhole ? '' : ' at the beginning of the file';
    const rest = aside === 0 ? '' : `, ${countText(aside, this.decimalMark)} set aside`;
    return `${countText(taken, this.decimalMark)} of ${of}${first} will be read${rest}.`;
  }

  private renderReasons({ setAside }: HeadCount) {
    const rarer = setAside.slice(NAMED).reduce((sum, { rows }) => sum + rows, 0);
    if (setAside.length === 0) return nothing;
    return html`<ul>
      ${setAside.slice(0, NAMED).map(({ reason, rows }) => html`<li>${countText(rows, this.decimalMark)}: ${reason}</li>`)}
      ${rarer === 0 ? nothing : html`<li>${countText(rarer, this.decimalMark)} for other reasons</li>`}
    </ul>`;
  }

  override render() {
    const { count } = this;
    if (count === undefined) return nothing;
    return html`<p role="status"><b>${this.summary(count)}</b></p>
      ${this.renderReasons(count)}
      ${
        count.times === undefined
          ? nothing
          : html`<p>First time: ${minuteText(count.times[0])}. Last time: ${minuteText(count.times[1])}.</p>`
      }`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-count': FilePlanCount;
  }
}

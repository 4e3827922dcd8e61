import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { MetersRead } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, listText } from '../words.ts';
import { benchChanged } from './band-outcome.ts';

const EXAMPLE = `meter,mode,range limit,resolution,percent,counts
M1,DC volts,60 V,0.01 V,0.5,3`;
/** More rows that cannot be read than these are counted only. */
const MOST_SHOWN = 20;

/**
 * The profiles of several meters as one small table, typed or pasted. Nothing changes where a row of it cannot be read.
 * @fires bench-changed - detail: Outcome
 */
@customElement('bt-meters-table')
export class MetersTable extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        max-inline-size: 60rem;
        margin-block: 2rem 1.5rem;
      }

      textarea {
        box-sizing: border-box;
        inline-size: 100%;
        min-block-size: 7rem;
        font-family: var(--font-number);
        font-size: 0.9375rem;
        color: inherit;
        background: transparent;
      }

      ol {
        margin: 0.5rem 0;
        padding: 0;
        list-style: none;
      }
    `,
  ];

  @query('textarea') private readonly area!: HTMLTextAreaElement;

  private readonly making = new ChangeController(this);

  @state() private faults: MetersRead['faults'] = [];
  @property({ attribute: false }) session!: Session;

  private forget(): void {
    this.faults = [];
    this.making.clear();
  }

  private async take(): Promise<void> {
    this.forget();
    const text = this.area.value;
    const made = await this.making.make(async () => {
      const { meters, faults } = await this.session.ask('readMeters', [text]);
      this.faults = faults;
      return faults.length > 0 ? undefined : { meters, rejudged: await this.session.ask('setMeters', [meters]) };
    });
    if (made?.result === undefined) return;
    const { meters, rejudged } = made.result;
    this.area.value = '';
    const names = listText(meters.map(({ name }) => name));
    const what = `${names} ${meters.length === 1 ? 'has a new profile' : 'have new profiles'} now.`;
    this.dispatchEvent(benchChanged(what, rejudged));
  }

  private renderFaults() {
    const { faults } = this;
    if (faults.length === 0) return nothing;
    const rows = countOf(faults.length, 'row', this.session.state.decimalMark);
    return html`<div role="alert">
      <p class="wrong">${rows} cannot be read, so no meter was changed.</p>
      <ol>
        ${faults.slice(0, MOST_SHOWN).map(({ line, reason }) => html`<li>Line ${line}: ${reason}</li>`)}
      </ol>
    </div>`;
  }

  override render() {
    return html`<section aria-labelledby="table">
      <h2 id="table">Are they in a table already?</h2>
      <p class="quiet">
        Paste it, or <a href=${hashOf('shift')}>bring it in</a> as a file: a row for each meter, mode and range. Columns
        may be meter, mode, range limit, resolution, percent, counts, unit, over-range mark and calibration due. A meter
        of the same name gives way.
      </p>
      <textarea aria-labelledby="table" spellcheck="false" placeholder=${EXAMPLE} @input=${this.forget}></textarea>
      ${this.making.faultLine()} ${this.renderFaults()}
      <p><button type="button" ?disabled=${this.making.isBusy} @click=${this.take}>Take the table</button></p>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-meters-table': MetersTable;
  }
}

import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { errorText } from '../../domain/error-text.ts';
import type { ReadingsQuery, WorkProgress } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { saveFile } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { readingsFormStyles } from './readings-form.styles.ts';

/**
 * Saves all readings of a query as a CSV file, exactly or for a spreadsheet. Long ones tell how far they are, and can be stopped.
 * @fires save-closed - the person is done
 */
@customElement('bt-readings-save')
export class ReadingsSave extends LitElement {
  static override styles = [
    shared,
    readingsFormStyles,
    css`
      p {
        max-inline-size: none;
        margin: 0;
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem 0.625rem;
      }
    `,
  ];

  @query('button') private readonly first!: HTMLButtonElement;

  @state() private running: AbortController | undefined;
  @state() private progress: WorkProgress | undefined;
  /** What came of the last saving. */
  @state() private said = '';
  @state() private isWrong = false;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) query: ReadingsQuery = { filters: [], sort: [] };

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.running?.abort();
  }

  /** Moves the focus to the first way to save. */
  override focus(): void {
    void this.updateComplete.then(() => {
      this.first.focus();
    });
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('save-closed'));
  }

  private cancel(): void {
    this.running?.abort();
  }

  private onKey(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    this.close();
  }

  private say(text: string, isWrong = false): void {
    this.said = text;
    this.isWrong = isWrong;
  }

  private async save(isForSpreadsheet: boolean): Promise<void> {
    if (this.running !== undefined) return;
    const running = (this.running = new AbortController());
    const name = isForSpreadsheet ? 'readings for a spreadsheet.csv' : 'readings.csv';
    this.say('Writing the readings.');
    try {
      const file = await this.session.ask(
        'readingsText',
        [this.query, isForSpreadsheet],
        running.signal,
        (progress) => (this.progress = progress),
      );
      saveFile(file, name);
      this.say(`The browser took “${name}” to its downloads.`);
    } catch (error) {
      if (running.signal.aborted) this.say('Stopped: nothing was saved.');
      else this.say(errorText(error), true);
    } finally {
      this.running = this.progress = undefined;
    }
  }

  private renderProgress({ done, total }: WorkProgress) {
    const { decimalMark } = this.session.state;
    return html`<progress max=${total} .value=${done} aria-label="Readings written"></progress>
      <span class="figures">${countText(done, decimalMark)} of ${countOf(total, 'reading', decimalMark)}</span>`;
  }

  override render() {
    const { running, progress } = this;
    const isBusy = running !== undefined;
    return html`<fieldset @keydown=${this.onKey}>
      <legend>Save these readings as CSV: all of them in their order, with commas and decimal points</legend>
      <p class="quiet">
        Exact: brought in again, it gives the same readings. For a spreadsheet: names that would be taken for formulas
        get an apostrophe, which bringing it in takes off again.
      </p>
      <div class="ways">
        <button type="button" aria-disabled=${isBusy} @click=${() => this.save(false)}>Save as CSV, exact</button>
        <button type="button" aria-disabled=${isBusy} @click=${() => this.save(true)}>Save for a spreadsheet</button>
        ${progress === undefined ? nothing : this.renderProgress(progress)}
        <button type="button" @click=${isBusy ? this.cancel : this.close}>${isBusy ? 'Cancel' : 'Done'}</button>
        <span class=${this.isWrong ? 'wrong' : 'quiet'} role="status">${this.said}</span>
      </div>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-save': ReadingsSave;
  }
}

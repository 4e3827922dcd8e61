import { LitElement, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { errorText } from '../../domain/error-text.ts';
import type { SetAside } from '../../domain/import-record.ts';
import type { Session } from '../../session/session.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';

import { saveFile } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import './set-aside-kinds.ts';
import { setAsideListStyles } from './set-aside-list.styles.ts';

const PAGE = 50;

/** The row that is being mended, and what was still wrong with it when it was last tried. */
interface Mending {
  readonly file: string;
  readonly line: number;
  readonly fault?: string;
}

/** Rows that could not become readings: each can be mended in its place and admitted, or let go; all can be saved as CSV. */
@customElement('bt-set-aside-list')
export class SetAsideList extends LitElement {
  static override styles = [shared, setAsideListStyles];

  @state() private firstShown = 0;
  @state() private mending: Mending | undefined;
  @state() private asksToLetAllGo = false;
  @state() private problem: string | undefined;
  /** What became of the row that was mended last. */
  @state() private said = '';

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) rows: readonly SetAside[] = [];

  private turn(event: CustomEvent<number>): void {
    this.firstShown = event.detail;
  }

  private async mend({ file, line }: SetAside): Promise<void> {
    this.mending = { file, line };
    await this.updateComplete;
    this.renderRoot.querySelector('textarea')?.focus();
  }

  private async stopMending(at: number): Promise<void> {
    this.mending = undefined;
    await this.focusRow(at);
  }

  private onKey(event: KeyboardEvent, row: SetAside, at: number): void {
    if (event.key === 'Escape') void this.stopMending(at);
    if (event.key !== 'Enter' || event.shiftKey || event.isComposing) return;
    event.preventDefault();
    void this.admit(row, at);
  }

  private async admit({ file, line }: SetAside, at: number): Promise<void> {
    const content = this.renderRoot.querySelector('textarea')?.value ?? '';
    await this.change(async () => {
      const fault = await this.session.ask('mendRow', [file, line, content]);
      if (fault !== undefined) {
        this.mending = { file, line, fault };
        return;
      }
      this.mending = undefined;
      this.said = `Line ${line} of ${file} was admitted.`;
      await this.focusRow(at);
    });
  }

  private async letGo({ file, line }: SetAside, at: number): Promise<void> {
    await this.change(async () => {
      await this.session.ask('letGo', [[{ file, line }]]);
      this.said = `Line ${line} of ${file} was let go.`;
      await this.focusRow(at);
    });
  }

  private async letAllGo(): Promise<void> {
    const rows = this.rows.map(({ file, line }) => ({ file, line }));
    this.asksToLetAllGo = false;
    await this.change(() => this.session.ask('letGo', [rows]));
  }

  private async save(isForSpreadsheet: boolean): Promise<void> {
    await this.change(async () => {
      const text = await this.session.ask('setAsideText', [isForSpreadsheet]);
      saveFile(new Blob([text], { type: 'text/csv' }), 'rows set aside.csv');
    });
  }

  private async change(command: () => Promise<unknown>): Promise<void> {
    this.problem = undefined;
    this.said = '';
    try {
      await command();
    } catch (error) {
      this.problem = errorText(error);
    }
  }

  /** Goes on with the row that stands in the place of the one before. */
  private async focusRow(at: number): Promise<void> {
    await this.updateComplete;
    const buttons = this.renderRoot.querySelectorAll<HTMLElement>('button[data-mend]');
    (buttons[Math.min(at, buttons.length - 1)] ?? this.renderRoot.querySelector<HTMLElement>('h2'))?.focus();
  }

  private async askToLetAllGo(): Promise<void> {
    this.asksToLetAllGo = true;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('[data-keep]')?.focus();
  }

  private keepAll(): void {
    this.asksToLetAllGo = false;
  }

  private renderContent(row: SetAside, at: number) {
    const { file, line, content } = row;
    const name = `line ${line} of ${file}`;
    if (!this.isMending(row)) return html`<td class="own-text content">${content}</td>`;
    return html`<td class="content">
      <textarea
        rows=${content.split('\n').length + 1}
        spellcheck="false"
        aria-label=${`Content of ${name}`}
        aria-describedby="how"
        .value=${content}
        @keydown=${(event: KeyboardEvent) => {
          this.onKey(event, row, at);
        }}
      ></textarea>
      <span id="how" class="quiet">Enter admits the row, Escape leaves it as it was.</span>
    </td>`;
  }

  private renderWays(row: SetAside, at: number) {
    const { file, line } = row;
    const of = html`<span class="spoken"> line ${line} of ${file}</span>`;
    if (this.isMending(row)) {
      return html`<button class="main" type="button" @click=${() => this.admit(row, at)}>Admit${of}</button>
        <button type="button" @click=${() => this.stopMending(at)}>Back</button>`;
    }
    return html`<button class="plain" type="button" data-mend @click=${() => this.mend(row)}>Mend${of}</button>
      <button class="plain" type="button" @click=${() => this.letGo(row, at)}>Let go${of}</button>`;
  }

  private isMending({ file, line }: SetAside): boolean {
    return this.mending?.file === file && this.mending.line === line;
  }

  private renderRow(row: SetAside, at: number) {
    const { file, line, column, reason } = row;
    const fault = this.isMending(row) ? this.mending?.fault : undefined;
    return html`<tr>
      <td class="file">${file}</td>
      <td class="number">${line === 0 ? 'whole file' : line}</td>
      <td>${column === '' ? 'whole row' : column}</td>
      <td class="reason wraps">
        ${fault === undefined ? reason : html`<span role="alert"><span class="wrong">▲ still:</span> ${fault}</span>`}
      </td>
      ${this.renderContent(row, at)}
      <td><div class="ways">${line === 0 ? nothing : this.renderWays(row, at)}</div></td>
    </tr>`;
  }

  private renderAll(count: string) {
    if (!this.asksToLetAllGo) {
      return html`<button type="button" @click=${() => this.save(false)}>Save as CSV</button>
        <button type="button" @click=${() => this.save(true)}>Save for a spreadsheet</button>
        <button type="button" @click=${this.askToLetAllGo}>Let all go…</button>`;
    }
    return html`<span>Let ${count} go? They stay in their files, but not on this list.</span>
      <button type="button" @click=${this.letAllGo}>Let all go</button>
      <button type="button" data-keep @click=${this.keepAll}>Keep them</button>`;
  }

  override render() {
    const { decimalMark } = this.session.state;
    if (this.rows.length === 0) {
      return html`<p role="status">${this.said}</p>
        <p>Every row could be read: nothing is set aside.</p>`;
    }
    const { items, first } = pageOf(this.rows, this.firstShown, PAGE);
    const count = countOf(this.rows.length, 'row', decimalMark);
    return html`<h2 id="aside" tabindex="-1">Which rows were set aside, and why?</h2>
      <p class="quiet">${count}. Mend a row here and admit it, or let it go.</p>
      <div class="all">
        ${this.renderAll(count)}
        <span role="status">${this.said}</span>
      </div>
      ${this.problem === undefined ? nothing : html`<p role="alert"><span class="wrong">▲</span> ${this.problem}</p>`}
      <bt-set-aside-kinds .session=${this.session} .rows=${this.rows}></bt-set-aside-kinds>
      <div class="sideways">
        <table aria-labelledby="aside">
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col" class="number">line</th>
              <th scope="col">column</th>
              <th scope="col">why, and what to do</th>
              <th scope="col">content</th>
              <th scope="col">change</th>
            </tr>
          </thead>
          <tbody>
            ${items.map((row, at) => this.renderRow(row, at))}
          </tbody>
        </table>
      </div>
      <bt-paging
        .total=${this.rows.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'rows set aside'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turn}
      ></bt-paging>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-set-aside-list': SetAsideList;
  }
}

import { LitElement, css, html } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Session } from '../../session/session.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';

/**
 * Empties the technician's own bench once that was confirmed, and asks for a fresh backup before.
 * @fires backup-wanted - the person wants one saved first
 */
@customElement('bt-start-anew')
export class StartAnew extends LitElement {
  static override styles = [
    shared,
    css`
      :host {
        margin-block-start: 1rem;
      }
    `,
  ];

  @query('h3') private readonly heading!: HTMLElement | null;

  @state() private isAsked = false;

  @property({ attribute: false }) session!: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private async ask(): Promise<void> {
    this.isAsked = true;
    await this.updateComplete;
    this.heading?.focus();
  }

  private leave(): void {
    this.isAsked = false;
  }

  private wantBackup(): void {
    this.dispatchEvent(new CustomEvent('backup-wanted'));
  }

  private start(): void {
    this.isAsked = false;
    void this.session.startEmpty();
  }

  override render() {
    if (!this.isAsked) return html`<button type="button" @click=${this.ask}>Start anew…</button>`;
    const isSafe = this.session.state.kept.ledger?.lastBackup?.holdsAll === true;
    return html`<section aria-labelledby="anew">
      <h3 id="anew" tabindex="-1">Empty this bench?</h3>
      <p>
        All readings, bands, families, repairs and meters go. They can be brought back once, until the bench is emptied
        or restored again.
        ${
          isSafe
            ? 'The last backup holds all of it.'
            : html`<span class="wrong">▲</span> No backup holds all of it: save one first.`
        }
      </p>
      <button class=${isSafe ? '' : 'main'} type="button" @click=${this.wantBackup}>Save a backup…</button>
      <button type="button" @click=${this.start}>
        ${isSafe ? 'Empty this bench' : 'Empty this bench without a backup'}
      </button>
      <button type="button" @click=${this.leave}>Leave it</button>
    </section>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-start-anew': StartAnew;
  }
}

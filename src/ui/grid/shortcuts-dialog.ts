import { css, html, LitElement } from 'lit';
import { customElement, query } from 'lit/decorators.js';
import { shared } from '../styles/shared.styles.ts';
import { SHORTCUTS } from './shortcuts.ts';

/** The page of keys of the grid of readings, over the page until it is closed. The focus goes back to where it was. */
@customElement('bt-grid-shortcuts')
export class GridShortcuts extends LitElement {
  static override styles = [
    shared,
    css`
      dialog {
        inline-size: min(72rem, 100vw - 2rem);
        max-inline-size: none;
        padding: 1rem 1.5rem 1.5rem;
        border: 1px solid var(--ink);
        background: var(--paper);
        color: var(--ink);
      }

      dialog::backdrop {
        background: color-mix(in srgb, var(--ink) 30%, transparent);
      }

      header {
        display: flex;
        align-items: baseline;
        justify-content: space-between;
        gap: 2rem;
        margin-block-end: 0.75rem;
      }

      .groups {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr));
        gap: 1.25rem 2.5rem;
      }

      dl {
        display: grid;
        grid-template-columns: minmax(0, 2fr) minmax(0, 3fr);
        gap: 0.25rem 1rem;
        margin: 0.25rem 0 0;
        padding-block-start: 0.375rem;
        border-block-start: 1px solid var(--rule);
        font-size: var(--small);
      }

      dt {
        font-weight: 600;
      }

      dd {
        margin: 0;
      }
    `,
  ];

  @query('dialog') private readonly dialog!: HTMLDialogElement;

  /** Shows the page of keys. */
  open(): void {
    if (!this.dialog.open) this.dialog.showModal();
  }

  private close(): void {
    this.dialog.close();
  }

  override render() {
    return html`<dialog aria-labelledby="title">
      <header>
        <h2 id="title">Keys in the grid of readings</h2>
        <button type="button" @click=${this.close}>Close</button>
      </header>
      <div class="groups">
        ${SHORTCUTS.map(
          ({ title, shortcuts }) =>
            html`<section>
              <h3>${title}</h3>
              <dl>
                ${shortcuts.map(
                  ({ keys, does }) =>
                    html`<dt>${keys}</dt>
                      <dd>${does}</dd>`,
                )}
              </dl>
            </section>`,
        )}
      </div>
    </dialog>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-grid-shortcuts': GridShortcuts;
  }
}

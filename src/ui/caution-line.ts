import { LitElement, css, html } from 'lit';
import { customElement, query } from 'lit/decorators.js';
import { CAUTION, CAUTIONS } from './cautions.ts';
import { shared } from './styles/shared.styles.ts';

/** The caution beside live and primary-side work, with the way to all of them. */
@customElement('bt-caution-line')
export class CautionLine extends LitElement {
  static override styles = [
    shared,
    css`
      aside {
        padding: 0.375rem var(--edge);
        border-bottom: 1px solid var(--rule);
        font-size: var(--small);
      }

      button.plain {
        min-height: 1.5rem;
      }

      dialog {
        max-width: 44rem;
        padding: 1.5rem 2rem;
        border: 1px solid var(--ink);
        background: var(--paper);
        color: var(--ink);
      }

      dialog::backdrop {
        background: rgb(0 0 0 / 40%);
      }

      li {
        margin: 0.5rem 0;
      }
    `,
  ];

  @query('dialog') private readonly dialog!: HTMLDialogElement;

  private showAll(): void {
    this.dialog.showModal();
  }

  private close(): void {
    this.dialog.close();
  }

  override render() {
    return html`
      <aside aria-label="Caution">
        <span class="wrong">▲ Live, primary side.</span> ${CAUTION}
        <button class="plain" type="button" aria-haspopup="dialog" @click=${this.showAll}>All cautions</button>
      </aside>
      <dialog aria-labelledby="title">
        <h2 id="title">Before you touch a board under power</h2>
        <ul>
          ${CAUTIONS.map((caution) => html`<li>${caution}</li>`)}
        </ul>
        <button type="button" @click=${this.close}>Close</button>
      </dialog>
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-caution-line': CautionLine;
  }
}

import { css, html, LitElement, nothing } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { shared } from '../styles/shared.styles.ts';
import { writeReadingsAddress } from './readings-address.ts';
import type { ReadingsView } from './readings-memory.ts';

/**
 * Views of the readings that were kept under names: opens them by their addresses, keeps the present one, lets one go.
 * @fires view-kept - detail: the name under which the present view is to be kept
 * @fires view-let-go - detail: the name of the view
 * @fires views-closed - the person is done
 */
@customElement('bt-readings-views')
export class ReadingsViews extends LitElement {
  static override styles = [
    shared,
    css`
      fieldset {
        display: grid;
        gap: 0.5rem;
        margin: 0;
        padding: 0.5rem 0;
        border: solid var(--rule);
        border-width: 1px 0;
        font-size: var(--small);
      }

      ul {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.5rem;
        margin: 0;
        padding: 0;
        list-style: none;
      }

      li,
      form {
        display: flex;
        align-items: center;
        gap: 0.625rem;
      }

      li a {
        min-block-size: 1.5rem;
        align-content: center;
      }

      p {
        margin: 0;
      }
    `,
  ];

  @query('input') private readonly input!: HTMLInputElement;

  @state() private missing = false;

  @property({ attribute: false }) views: readonly ReadingsView[] = [];

  /** Moves the focus to the name to fill in. */
  override focus(): void {
    void this.updateComplete.then(() => {
      this.input.focus();
    });
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('views-closed'));
  }

  private onKey(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    this.close();
  }

  private keep(event: SubmitEvent): void {
    event.preventDefault();
    const name = this.input.value.trim();
    this.missing = name === '';
    if (this.missing) {
      this.input.focus();
      return;
    }
    this.input.value = '';
    this.dispatchEvent(new CustomEvent<string>('view-kept', { detail: name }));
  }

  private letGo(name: string): void {
    this.dispatchEvent(new CustomEvent<string>('view-let-go', { detail: name }));
    this.input.focus();
  }

  override render() {
    return html`<fieldset @keydown=${this.onKey}>
      <legend>Views kept on this page: columns, order, filters and groups under a name</legend>
      ${
        this.views.length === 0
          ? html`<p class="quiet">
              None yet. Kept views last as long as the page is open; the address of a view lasts.
            </p>`
          : html`<ul>
              ${this.views.map(
                ({ name, query: asked, layout }) =>
                  html`<li>
                    <a href=${writeReadingsAddress({ query: asked, layout })}>${name}</a>
                    <button
                      class="plain"
                      type="button"
                      aria-label="let go of ${name}"
                      @click=${() => {
                        this.letGo(name);
                      }}
                    >
                      let go
                    </button>
                  </li>`,
              )}
            </ul>`
      }
      <form @submit=${this.keep}>
        <label>keep this view as <input type="text" aria-invalid=${this.missing} aria-describedby="missing" /></label>
        <button type="submit">Keep</button>
        <button type="button" @click=${this.close}>Done</button>
        <span id="missing" class="wrong" role="status">${this.missing ? 'Give it a name.' : nothing}</span>
      </form>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-views': ReadingsViews;
  }
}

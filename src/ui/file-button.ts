import { LitElement, html } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import type { Session } from '../session/session.ts';
import { hashOf } from './route.ts';
import { shared } from './styles/shared.styles.ts';

/** The button with which files are chosen and brought in. */
@customElement('bt-file-button')
export class FileButton extends LitElement {
  static override styles = shared;

  @query('input') private readonly input!: HTMLInputElement;

  @property({ attribute: false }) session!: Session;

  private choose(): void {
    this.input.click();
  }

  private take(): void {
    const files = [...(this.input.files ?? [])];
    // Else the same file could not be chosen twice.
    this.input.value = '';
    if (files.length === 0) return;
    void this.session.bringIn(files);
    location.hash = hashOf('shift');
  }

  override render() {
    return html`
      <button class="main" type="button" @click=${this.choose}>Bring in logs…</button>
      <input
        type="file"
        hidden
        multiple
        accept=".csv,.tsv,.txt,.log,text/csv,text/tab-separated-values,text/plain"
        aria-label="Files to bring in"
        @change=${this.take}
      />
    `;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-button': FileButton;
  }
}

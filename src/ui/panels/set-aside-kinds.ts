import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { SetAside } from '../../domain/import-record.ts';
import { kindsOf, type SetAsideKind } from '../../domain/set-aside-kind.ts';
import type { Session } from '../../session/session.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import './set-aside-mend.ts';

/** Kinds that are listed; rarer ones are mended row by row. */
const MOST = 20;

/** Rows that were set aside for one reason, several at a time: all of a kind are mended at once. */
@customElement('bt-set-aside-kinds')
export class SetAsideKinds extends LitElement {
  static override styles = [
    shared,
    css`
      ul.kinds {
        margin: 0.5rem 0 1rem;
        padding: 0;
        list-style: none;
      }

      ul.kinds > li {
        padding: 0.375rem 0;
        border-bottom: 1px solid var(--rule);
        overflow-wrap: anywhere;
      }
    `,
  ];

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) rows: readonly SetAside[] = [];

  @state() private open: string | undefined;
  /** What became of the rows that were mended last. */
  @state() private said = '';

  private async mend(kind: SetAsideKind): Promise<void> {
    this.open = nameOf(kind);
    this.said = '';
    await this.updateComplete;
    this.renderRoot.querySelector('bt-set-aside-mend')?.focus();
  }

  private async close(said: string, at: number): Promise<void> {
    this.open = undefined;
    this.said = said;
    await this.updateComplete;
    const buttons = this.renderRoot.querySelectorAll<HTMLElement>('button[data-kind]');
    buttons[Math.min(at, buttons.length - 1)]?.focus();
  }

  private renderKind(kind: SetAsideKind, at: number) {
    const { file, reason, rows } = kind;
    const count = countOf(rows.length, 'row', this.session.state.decimalMark);
    return html`<li>
      <b>${count} of ${file}:</b> ${reason}
      ${
        this.open === nameOf(kind)
          ? html`<bt-set-aside-mend
              .session=${this.session}
              .kind=${kind}
              @mended=${(event: CustomEvent<string>) => this.close(event.detail, at)}
              @left=${() => this.close('', at)}
            ></bt-set-aside-mend>`
          : html`<button
              class="plain"
              type="button"
              data-kind
              aria-label=${`Mend all ${count} of ${file}: ${reason}`}
              @click=${() => this.mend(kind)}
            >
              Mend all…
            </button>`
      }
    </li>`;
  }

  override render() {
    const kinds = kindsOf(this.rows.filter(({ line }) => line > 0)).filter(({ rows }) => rows.length > 1);
    return html`<p role="status">${this.said}</p>
      ${
        kinds.length === 0
          ? nothing
          : html`<ul class="kinds" aria-label="Rows set aside, by reason">
              ${kinds.slice(0, MOST).map((kind, at) => this.renderKind(kind, at))}
            </ul>`
      }`;
  }
}

function nameOf({ file, reason }: SetAsideKind): string {
  return JSON.stringify([file, reason]);
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-set-aside-kinds': SetAsideKinds;
  }
}

import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../domain/quantity.ts';
import { shared } from './styles/shared.styles.ts';
import { countText } from './words.ts';

/** The part of a long list that is shown. */
export interface Page<Item> {
  readonly items: readonly Item[];
  /** Place of the first of them, the list's first being 0. */
  readonly first: number;
}

/** Cuts the page out of a list that holds the row `first`; past the end, the last page. */
export function pageOf<Item>(list: readonly Item[], first: number, size: number): Page<Item> {
  const last = Math.max(0, Math.ceil(list.length / size) - 1);
  const start = size * Math.min(last, Math.max(0, Math.floor(first / size)));
  return { items: list.slice(start, start + size), first: start };
}

/**
 * Says which part of a long list is shown, and turns its pages; nothing where all of it fits on one.
 * @fires page-turned - detail: place of the first row to show
 */
@customElement('bt-paging')
export class Paging extends LitElement {
  static override styles = [
    shared,
    css`
      nav {
        display: flex;
        align-items: center;
        gap: 1rem;
        margin: 0.75rem 0;
      }
    `,
  ];

  /** How many rows there are in all, which of them is the first shown, and how many a page holds. */
  @property({ attribute: false }) total = 0;
  @property({ attribute: false }) first = 0;
  @property({ attribute: false }) size = 100;
  /** What the rows are, in the plural. */
  @property({ attribute: false }) noun = 'rows';
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  private turn(first: number): void {
    this.dispatchEvent(new CustomEvent<number>('page-turned', { detail: first }));
  }

  private earlier(): void {
    this.turn(this.first - this.size);
  }

  private later(): void {
    this.turn(this.first + this.size);
  }

  override render() {
    const { total, first, size, noun, decimalMark } = this;
    if (total <= size) return nothing;
    const last = Math.min(total, first + size);
    return html`<nav aria-label="Pages of ${noun}">
      <button type="button" ?disabled=${first === 0} @click=${this.earlier}>Earlier</button>
      <span role="status">
        ${countText(first + 1, decimalMark)} to ${countText(last, decimalMark)} of ${countText(total, decimalMark)}
        ${noun}
      </span>
      <button type="button" ?disabled=${last >= total} @click=${this.later}>Later</button>
    </nav>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-paging': Paging;
  }
}

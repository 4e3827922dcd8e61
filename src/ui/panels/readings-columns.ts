import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { repeat } from 'lit/directives/repeat.js';
import {
  FIRST_LAYOUT,
  MAX_PINNED,
  MAX_WIDTH,
  MIN_WIDTH,
  movedTo,
  withPinned,
  withShown,
  withWidth,
  type ColumnLayout,
  type ColumnPlace,
} from '../grid/column-layout.ts';
import { columnOf } from '../grid/grid-columns.ts';
import { shared } from '../styles/shared.styles.ts';

/**
 * Lets a person choose the columns of the grid: which are shown, in which order, how wide, and which stay in sight.
 * @fires layout-chosen - detail: the `ColumnLayout`
 * @fires columns-closed - the person is done
 */
@customElement('bt-readings-columns')
export class ReadingsColumns extends LitElement {
  static override styles = [
    shared,
    css`
      fieldset {
        margin: 0;
        padding: 0.5rem 0;
        border: solid var(--rule);
        border-width: 1px 0;
        font-size: var(--small);
      }

      .list {
        max-block-size: 18rem;
        overflow-y: auto;
      }

      th[scope='row'],
      td {
        vertical-align: middle;
      }

      label {
        display: inline-flex;
        align-items: center;
        gap: 0.5rem;
        min-block-size: 1.5rem;
      }

      input[type='number'] {
        inline-size: 5rem;
        min-block-size: 1.75rem;
        border: 1px solid var(--quiet);
        border-radius: 2px;
        background: var(--paper);
      }

      .end {
        display: flex;
        gap: 1rem;
        margin-block-start: 0.5rem;
      }
    `,
  ];

  @property({ attribute: false }) layout: ColumnLayout = FIRST_LAYOUT;

  /** Moves the focus to the first thing to choose. */
  override focus(): void {
    void this.updateComplete.then(() => this.renderRoot.querySelector('input')?.focus());
  }

  private choose(layout: ColumnLayout): void {
    if (layout === this.layout) return;
    this.layout = layout;
    this.dispatchEvent(new CustomEvent<ColumnLayout>('layout-chosen', { detail: layout }));
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('columns-closed'));
  }

  private onKey(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    this.close();
  }

  private onShown(event: Event): void {
    const { value, checked } = event.target as HTMLInputElement;
    this.choose(withShown(this.layout, value, checked));
    this.requestUpdate();
  }

  private onPinned(event: Event): void {
    const { value, checked } = event.target as HTMLInputElement;
    this.choose(withPinned(this.layout, value, checked));
    this.requestUpdate();
  }

  private onWidth(event: Event): void {
    const { name, value } = event.target as HTMLInputElement;
    this.choose(withWidth(this.layout, name, value === '' ? undefined : Number(value)));
  }

  private async move(id: string, by: -1 | 1, button: EventTarget | null): Promise<void> {
    const at = this.layout.findIndex((place) => place.id === id);
    const moved = this.layout[at];
    const target = this.layout[at + by];
    if (moved === undefined || target === undefined) return;
    this.choose(withPinned(movedTo(this.layout, id, target.id), id, moved.pinned));
    await this.updateComplete;
    // The row with the button was moved, and lost the focus with that.
    if (button instanceof HTMLElement) button.focus();
  }

  private renderPlace({ id, shown, pinned, width }: ColumnPlace, index: number) {
    const { title, about } = columnOf(id);
    const last = this.layout.length - 1;
    const moves = [['earlier', -1, index === 0], ['later', 1, index === last]] as const; // prettier-ignore
    return html`<tr>
      <th scope="row">
        <label><input type="checkbox" .value=${id} .checked=${shown} @change=${this.onShown} /> ${title}</label>
      </th>
      <td>
        ${moves.map(
          ([word, by, isEnd]) =>
            html`<button
              class="plain"
              type="button"
              aria-label="${title} ${word}"
              aria-disabled=${isEnd}
              @click=${(event: Event) => this.move(id, by, event.currentTarget)}
            >
              ${word}
            </button> `,
        )}
      </td>
      <td>
        <label
          ><input
            type="checkbox"
            aria-label="pin ${title}"
            .value=${id}
            .checked=${pinned}
            @change=${this.onPinned}
          />pinned</label
        >
      </td>
      <td>
        <input
          type="number"
          name=${id}
          aria-label="width of ${title} in letters"
          min=${MIN_WIDTH}
          max=${MAX_WIDTH}
          step="0.25"
          .value=${width === undefined ? '' : String(width)}
          @change=${this.onWidth}
        />
      </td>
      <td class="quiet">${about ?? nothing}</td>
    </tr>`;
  }

  override render() {
    return html`<fieldset @keydown=${this.onKey}>
      <legend>Columns of the grid, in their order; up to ${MAX_PINNED} can be pinned before the others</legend>
      <div class="list">
        <table>
          <thead>
            <tr>
              <th scope="col">shown</th>
              <th scope="col">move</th>
              <th scope="col">stays in sight</th>
              <th scope="col">width, empty for its own</th>
              <th scope="col">what it says</th>
            </tr>
          </thead>
          <tbody>
            ${repeat(
              this.layout,
              ({ id }) => id,
              (place, index) => this.renderPlace(place, index),
            )}
          </tbody>
        </table>
      </div>
      <div class="end">
        <button type="button" @click=${this.close}>Done</button>
        <button
          class="plain"
          type="button"
          @click=${() => {
            this.choose(FIRST_LAYOUT);
          }}
        >
          as at first
        </button>
      </div>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-columns': ReadingsColumns;
  }
}

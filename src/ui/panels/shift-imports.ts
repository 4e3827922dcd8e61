import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ImportRecord } from '../../domain/import-record.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { ENCODING_NAMES, SEPARATOR_NAMES, SHAPE_NAMES } from './file-plan-text.ts';

const ENCODINGS: Readonly<Record<string, string>> = ENCODING_NAMES;
const SEPARATORS: Readonly<Record<string, string>> = SEPARATOR_NAMES;

/** What is asked of one import in its own place. */
interface Asked {
  readonly hash: string;
  readonly about: 'take back' | 'its file';
}

/** Every import with its sum, how it was read, and the ways to read it otherwise or to take it back. */
@customElement('bt-shift-imports')
export class ShiftImports extends LitElement {
  static override styles = [
    shared,
    css`
      /* What is only spoken stands in it, and must not widen the page. */
      .sideways {
        position: relative;
      }

      h2:focus-visible {
        outline: none;
      }

      .note td {
        padding-inline-start: 1.25rem;
        font-size: var(--small);
        white-space: normal;
      }

      tr.open :is(th, td) {
        border-bottom: 0;
      }

      .asked {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem 1rem;
        padding: 0.25rem 0 0.5rem;
        font-size: 1rem;
      }

      .ways {
        display: flex;
        gap: 1.25rem;
      }

      .ways button {
        min-height: 1.5rem;
      }

      tbody th {
        min-width: 15.5rem;
        max-width: 22rem;
        overflow-wrap: anywhere;
        white-space: normal;
      }
    `,
  ];

  private readonly making = new ChangeController(this);

  @state() private asked: Asked | undefined;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) imports: readonly ImportRecord[] = [];

  private async readOtherwise(record: ImportRecord): Promise<void> {
    this.asked = undefined;
    await this.session.fetchOriginal(record.hash, record.file);
    if (this.session.hasOriginal(record.hash)) await this.session.reread(record.hash, record.file);
    if (!this.session.hasOriginal(record.hash)) await this.askFor({ hash: record.hash, about: 'its file' });
  }

  private async askFor(asked: Asked): Promise<void> {
    this.asked = asked;
    this.making.clear();
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('.asked button')?.focus();
  }

  private async leave({ hash }: ImportRecord, way: string): Promise<void> {
    this.asked = undefined;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`[data-way="${way} ${hash}"]`)?.focus();
  }

  private async takeBack({ hash }: ImportRecord): Promise<void> {
    const made = await this.making.make(() => this.session.ask('takeBack', [hash]));
    if (made === undefined) return;
    this.asked = undefined;
    this.renderRoot.querySelector<HTMLElement>('h2')?.focus();
  }

  private choose(): void {
    this.renderRoot.querySelector<HTMLElement>('input[type=file]')?.click();
  }

  private async take(event: Event, { hash, file }: ImportRecord): Promise<void> {
    const input = event.target as HTMLInputElement;
    const chosen = input.files?.[0];
    input.value = '';
    if (chosen === undefined) return;
    this.asked = undefined;
    await this.session.reread(hash, file, chosen);
  }

  private renderTakeBack(record: ImportRecord) {
    const { file, shape, taken } = record;
    const noun = shape === 'unknown' ? 'row' : shape.slice(0, -1);
    const go = `${countOf(taken, noun, this.session.state.decimalMark)} ${taken === 1 ? 'goes' : 'go'}`;
    return html`<div class="asked" role="group" aria-label=${`Take ${file} back?`}>
      <span>Take ${file} back? ${go} from the bench; the file itself stays where it is.</span>
      <button type="button" ?disabled=${this.making.isBusy} @click=${() => this.takeBack(record)}>Take it back</button>
      <button type="button" @click=${() => this.leave(record, 'back')}>Keep it</button>
      ${this.making.faultLine()}
    </div>`;
  }

  private renderAskForFile(record: ImportRecord) {
    return html`<div class="asked" role="group" aria-label=${`The file of ${record.file}`}>
      <span>The file ${record.file} is not at hand any more. Choose it again to read it in another way.</span>
      <button type="button" @click=${this.choose}>Choose the file…</button>
      <button type="button" @click=${() => this.leave(record, 'again')}>Leave it as it is</button>
      <input
        type="file"
        hidden
        aria-label=${`The file of ${record.file}`}
        @change=${(event: Event) => this.take(event, record)}
      />
    </div>`;
  }

  private renderRecord(record: ImportRecord) {
    const { decimalMark } = this.session.state;
    const { file, hash } = record;
    const asked = this.asked?.hash === hash ? this.asked.about : undefined;
    const notes = [
      ...record.notices.map((notice) => html`${notice}`),
      ...(asked === undefined
        ? []
        : [asked === 'take back' ? this.renderTakeBack(record) : this.renderAskForFile(record)]),
    ];
    const count = (value: number) => html`<td class="number">${countText(value, decimalMark)}</td>`;
    return html`<tr class=${notes.length > 0 ? 'open' : ''}>
        <th scope="row">${file}</th>
        <td>${SHAPE_NAMES[record.shape]}</td>
        ${count(record.rows)} ${count(record.taken)} ${count(record.setAside)} ${count(record.known)}
        ${count(record.noData)}
        <td>${ENCODINGS[record.encoding] ?? record.encoding}, ${SEPARATORS[record.separator] ?? record.separator}</td>
        <td>
          <div class="ways">
            <button
              class="plain"
              type="button"
              aria-label=${`Change how it was read: ${file}`}
              data-way=${`again ${hash}`}
              @click=${() => this.readOtherwise(record)}
            >
              Change how it was read
            </button>
            <button
              class="plain"
              type="button"
              data-way=${`back ${hash}`}
              @click=${() => this.askFor({ hash, about: 'take back' })}
            >
              Take back<span class="spoken"> ${file}</span>
            </button>
          </div>
        </td>
      </tr>
      ${notes.map(
        (note, at) =>
          html`<tr class=${at < notes.length - 1 ? 'note open' : 'note'}>
            <td colspan="9">${note}</td>
          </tr>`,
      )}`;
  }

  override render() {
    if (this.imports.length === 0) return nothing;
    return html`<h2 id="held" tabindex="-1">What did each file hold?</h2>
      <p class="quiet">
        Rows are the sum of taken, set aside and known already. Lines that are no data (headers, blank lines, footers)
        are counted apart.
      </p>
      <div class="sideways">
        <table aria-labelledby="held">
          <thead>
            <tr>
              <th scope="col">file</th>
              <th scope="col">holds</th>
              <th scope="col" class="number">rows</th>
              <th scope="col" class="number">taken</th>
              <th scope="col" class="number">set aside</th>
              <th scope="col" class="number">known already</th>
              <th scope="col" class="number">no data</th>
              <th scope="col">read as</th>
              <th scope="col">change</th>
            </tr>
          </thead>
          <tbody>
            ${this.imports.map((record) => this.renderRecord(record))}
          </tbody>
        </table>
      </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-shift-imports': ShiftImports;
  }
}

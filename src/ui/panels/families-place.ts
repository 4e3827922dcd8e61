import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FamilyLine, FamilyPatterns } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import '../charts/failure-bars.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { hashOf, readingsHash, type Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';

/** The board families of the bench: a list of them, and how the one that the address names fails. */
@customElement('bt-families-place')
export class FamiliesPlace extends LitElement {
  static override styles = [
    shared,
    css`
      table {
        max-inline-size: 56rem;
      }

      .facts {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 2rem;
        margin: 0.5rem 0 1.5rem;
        padding: 0;
        list-style: none;
      }

      .none {
        color: var(--quiet);
      }
    `,
  ];

  private readonly families = new AnswerController<readonly FamilyLine[]>(this, () => {
    const { session } = this;
    return session && { key: String(session.state.revision), ask: (signal) => session.ask('families', [], signal) };
  });
  private readonly patterns = new AnswerController<{ readonly found: FamilyPatterns | undefined }>(this, () => {
    const { session } = this;
    const family = this.route.item;
    if (session === undefined || family === undefined) return undefined;
    return {
      key: `${session.state.revision} ${family}`,
      ask: async (signal) => ({ found: await session.ask('family', [family], signal) }),
    };
  });

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) route: Route = { place: 'families', query: '' };

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get mark() {
    return this.session?.state.decimalMark ?? '.';
  }

  private renderList() {
    const { answer } = this.families;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet" role="status">Counting families.</p>`;
    if (answer.value.length === 0) {
      return html`<p>
        No family is known yet. Families come with readings, repairs or bands:
        <a href=${hashOf('shift')}>bring a log in</a>.
      </p>`;
    }
    return html`<p>Each board family, with what the bench holds of it. Its name leads to how it fails.</p>
      <div class="sideways">
        <table>
          <thead>
            <tr>
              <th scope="col">family</th>
              ${['repairs', 'readings', 'out of band', 'comebacks', 'bands'].map(
                (title) => html`<th scope="col" class="number">${title}</th>`,
              )}
            </tr>
          </thead>
          <tbody>
            ${answer.value.map((line) => this.renderLine(line))}
          </tbody>
        </table>
      </div>`;
  }

  private renderLine(line: FamilyLine) {
    const { family, bands } = line;
    const count = (value: number) => html`<td class="number">${countText(value, this.mark)}</td>`;
    const bandsHash = hashOf('bands', undefined, new URLSearchParams({ family }));
    return html`<tr>
      <th scope="row"><a href=${hashOf('families', family)}>${family}</a></th>
      ${[line.repairs, line.readings, line.outOfBand, line.comebacks].map(count)}
      <td class="number"><a href=${bandsHash}>${bands === 0 ? 'none yet' : countText(bands, this.mark)}</a></td>
    </tr>`;
  }

  private renderFacts(family: string) {
    const line =
      this.families.answer.status === 'failed'
        ? undefined
        : this.families.answer.value?.find((one) => one.family === family);
    if (line === undefined) return nothing;
    const readings = readingsHash({ filters: [{ field: 'family', oneOf: [family] }], sort: [] });
    const bands = hashOf('bands', undefined, new URLSearchParams({ family }));
    return html`<ul class="facts">
      <li>${countOf(line.repairs, 'repair', this.mark)}</li>
      <li>
        <a href=${readings}>${countOf(line.readings, 'reading', this.mark)}</a>, ${countText(line.outOfBand, this.mark)}
        out of band
      </li>
      <li>${countOf(line.comebacks, 'comeback', this.mark)}</li>
      <li><a href=${bands}>${line.bands === 0 ? 'no bands yet' : countOf(line.bands, 'band', this.mark)}</a></li>
    </ul>`;
  }

  private renderFamily(family: string) {
    const { answer } = this.patterns;
    return html`<p><a href=${hashOf('families')}>All families</a></p>
      <h1>${family}</h1>
      ${this.renderFacts(family)}
      ${
        answer.status === 'failed'
          ? html`<p role="alert">${answer.reason}</p>`
          : answer.value === undefined
            ? html`<p class="quiet" role="status">Counting failures.</p>`
            : answer.value.found === undefined
              ? html`<p>No board of a family ${family} is known: its name may be written otherwise.</p>`
              : html`<bt-failure-bars .patterns=${answer.value.found} .decimalMark=${this.mark}></bt-failure-bars>`
      }`;
  }

  override render() {
    const { item } = this.route;
    return item === undefined
      ? html`<h1>Families</h1>
          ${this.renderList()}`
      : this.renderFamily(item);
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-families-place': FamiliesPlace;
  }
}

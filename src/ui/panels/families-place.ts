import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FamilyLine } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { familySheetHash, hashOf, metersHash, readingsHash, type Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { selectField } from './families-fields.ts';
import './families-beside.ts';
import './families-meters.ts';
import { FAMILY_PAGE_ROWS } from './families-page.ts';
import { readFamilyAsked, withAsked, writeFamilyAsked } from './families-query.ts';
import './sheet-family.ts';
import './sheet-kit.ts';

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

      .meters {
        margin-block-start: 1rem;
      }

      .beside label {
        display: inline-flex;
        align-items: center;
        gap: 0.5rem;
      }

      .two {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(100%, 36rem), 1fr));
        gap: 0 3rem;
        align-items: start;
      }

      .two > section,
      .two bt-family-page {
        display: grid;
        grid-template-columns: minmax(0, 1fr);
        grid-template-rows: subgrid;
        align-items: start;
        min-inline-size: 0;
      }

      .two > section {
        grid-row: span ${1 + FAMILY_PAGE_ROWS};
      }

      .two bt-family-page {
        grid-row: span ${FAMILY_PAGE_ROWS};
      }

      .other {
        font-size: 1.5rem;
      }

      @media print {
        .beside {
          display: none;
        }
      }
    `,
  ];

  private readonly families = new AnswerController<readonly FamilyLine[]>(this, () => {
    const { session } = this;
    return session && { key: String(session.state.revision), ask: (signal) => session.ask('families', [], signal) };
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

  private lineOf(family: string): FamilyLine | undefined {
    const { answer } = this.families;
    return answer.status === 'failed' ? undefined : answer.value?.find((line) => line.family === family);
  }

  private renderFacts(line: FamilyLine) {
    const { family } = line;
    const { query } = this.route;
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
      <li><a href=${familySheetHash(family, 'sheet', query)}>Sheet to print</a></li>
      <li><a href=${familySheetHash(family, 'kit', query)}>Kit list to print</a></li>
    </ul>`;
  }

  private renderBeside(family: string) {
    const asked = readFamilyAsked(this.route.query);
    const { answer } = this.families;
    const others = (answer.status === 'failed' ? [] : (answer.value ?? [])).filter((line) => line.family !== family);
    if (others.length === 0 && asked.beside === undefined) return nothing;
    return html`<p class="beside">
      ${selectField(
        'Show another family beside it',
        asked.beside,
        others.map((line) => line.family),
        'none',
        (beside) => {
          location.hash = hashOf('families', family, writeFamilyAsked(withAsked(asked, { beside })));
        },
      )}
    </p>`;
  }

  private renderFamily(family: string) {
    const line = this.lineOf(family);
    const { query } = this.route;
    const { beside } = readFamilyAsked(query);
    const page = (name: string, isOther: boolean) =>
      html`<bt-family-page
        .session=${this.session}
        .family=${name}
        .query=${query}
        .beside=${isOther}
      ></bt-family-page>`;
    return html`<p><a href=${hashOf('families')}>All families</a></p>
      <h1>${family}</h1>
      ${line === undefined ? nothing : this.renderFacts(line)}
      ${line?.bands === 0 ? html`<p><span class="wrong">${family} has no bands yet:</span> its readings are not judged, so no part can be proved failed.</p>` : nothing}
      ${this.renderBeside(family)}
      ${
        beside === undefined
          ? page(family, false)
          : html`<bt-families-beside
                .session=${this.session}
                .family=${family}
                .other=${beside}
                .query=${query}
              ></bt-families-beside>
              <div class="two">
                <section aria-label=${family}>
                  <h2 class="other">${family}</h2>
                  ${page(family, false)}
                </section>
                <section aria-label=${beside}>
                  <h2 class="other"><a href=${hashOf('families', beside)}>${beside}</a></h2>
                  ${page(beside, true)}
                </section>
              </div>`
      }`;
  }

  override render() {
    const { session } = this;
    const { item, view, query } = this.route;
    if (item !== undefined && view === 'sheet' && session !== undefined)
      return html`<bt-sheet-family .session=${session} .family=${item} .query=${query}></bt-sheet-family>`;
    if (item !== undefined && view === 'kit' && session !== undefined)
      return html`<bt-sheet-kit .session=${session} .family=${item} .query=${query}></bt-sheet-kit>`;
    if (item !== undefined) return this.renderFamily(item);
    if (query === METERS) return html`<bt-families-meters .session=${this.session}></bt-families-meters>`;
    return html`<h1>Families</h1>
      ${this.renderList()}
      <p class="meters">
        <a href=${metersHash()}>Meters</a>: which of them reads high or low, by all families together.
      </p>`;
  }
}

const METERS = 'meters';

declare global {
  interface HTMLElementTagNameMap {
    'bt-families-place': FamiliesPlace;
  }
}

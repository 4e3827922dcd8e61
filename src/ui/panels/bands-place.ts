import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Band } from '../../domain/band.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { BandLine, BandsOverview, Filter } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText, limitsText } from '../band-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';
import { hashOf, readingsHash, type Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';

const PAGE = 200;

/** The bands of each family, with what they judged, and the checks that still have none. */
@customElement('bt-bands-place')
export class BandsPlace extends LitElement {
  static override styles = [
    shared,
    css`
      section {
        margin: 1.5rem 0 2rem;
      }

      nav {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.25rem;
        margin: 0.5rem 0 1rem;
      }

      nav a {
        padding: 0.125rem 0;
      }

      nav a[aria-current='true'] {
        color: inherit;
        font-weight: 600;
        text-decoration: none;
      }

      td.expects {
        min-width: 15rem;
      }
    `,
  ];

  private readonly overview = new AnswerController<BandsOverview>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.session.ask('bands', [], signal),
    keepsLast: true,
  }));

  @state() private firstBand = 0;
  @state() private firstWithout = 0;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) route!: Route;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get family(): string | undefined {
    return new URLSearchParams(this.route.query).get('family') ?? undefined;
  }

  private turnBands(event: CustomEvent<number>): void {
    this.firstBand = event.detail;
  }

  private turnWithout(event: CustomEvent<number>): void {
    this.firstWithout = event.detail;
  }

  private renderFamilies(families: readonly string[]) {
    const link = (name: string, family?: string) => {
      const query = family === undefined ? undefined : new URLSearchParams({ family });
      const current = family === this.family ? 'true' : 'false';
      return html`<a href=${hashOf('bands', undefined, query)} aria-current=${current}>${name}</a>`;
    };
    return html`<nav aria-label="Families">
      ${link('All families')} ${families.map((family) => link(family, family))}
    </nav>`;
  }

  private renderBand({ band, readings, outOfBand }: BandLine) {
    const { decimalMark } = this.session.state;
    const unit = MODE_UNITS[band.mode];
    return html`<tr>
      ${this.family === undefined ? html`<td>${band.family}</td>` : nothing}
      <th scope="row">${band.point}</th>
      <td>${band.stage ?? html`<span class="quiet">any</span>`}</td>
      <td>${band.mode}</td>
      <td class="expects wraps">
        ${expectationText(band.expects, unit, decimalMark)}
        <span class="quiet">${limitsText(band.expects, unit, decimalMark)}</span>
      </td>
      <td class="number">
        ${this.renderCount(readings, filtersOf(band), `readings of ${band.family}, ${band.point}`)}
      </td>
      <td class="number">
        ${this.renderCount(
          outOfBand,
          [...filtersOf(band), { field: 'verdict', oneOf: ['conditional fail', 'fail'] }],
          `readings out of band of ${band.family}, ${band.point}`,
        )}
      </td>
      <td>${band.basis}${band.author === undefined ? '' : `, ${band.author}`}</td>
      <td class="figures">${band.date ?? ''}</td>
    </tr>`;
  }

  /** A count that leads to its readings in the grid. */
  private renderCount(count: number, filters: readonly Filter[], what: string) {
    const text = countText(count, this.session.state.decimalMark);
    if (count === 0) return html`<span class="quiet">${text}</span>`;
    return html`<a href=${readingsHash({ filters })} aria-label="${text} ${what}">${text}</a>`;
  }

  private renderBands(bands: readonly BandLine[]) {
    const { decimalMark } = this.session.state;
    if (bands.length === 0) {
      return html`<p>
        No band is set here, so no reading can be judged. <a href=${hashOf('shift')}>Bring in</a> a table of bands:
        family, point, mode, and what the reading should be.
      </p>`;
    }
    const { items, first } = pageOf(bands, this.firstBand, PAGE);
    const judged = bands.reduce((sum, line) => sum + line.readings, 0);
    const outOfBand = bands.reduce((sum, line) => sum + line.outOfBand, 0);
    return html`<section aria-labelledby="bands">
      <h2 id="bands">What should each point read?</h2>
      <p class="quiet">
        ${countOf(bands.length, 'band', decimalMark)} over ${countOf(judged, 'reading', decimalMark)}, of which
        ${countText(outOfBand, decimalMark)} are out of band. Both ends of a band pass.
      </p>
      <div class="sideways">
        <table aria-labelledby="bands">
          <thead>
            <tr>
              ${this.family === undefined ? html`<th scope="col">family</th>` : nothing}
              <th scope="col">point</th>
              <th scope="col">stage</th>
              <th scope="col">mode</th>
              <th scope="col">should read</th>
              <th scope="col" class="number">readings</th>
              <th scope="col" class="number">out of band</th>
              <th scope="col">basis</th>
              <th scope="col">set on</th>
            </tr>
          </thead>
          <tbody>
            ${items.map((line) => this.renderBand(line))}
          </tbody>
        </table>
      </div>
      <bt-paging
        .total=${bands.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'bands'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turnBands}
      ></bt-paging>
    </section>`;
  }

  private renderWithout(without: BandsOverview['without']) {
    const { decimalMark } = this.session.state;
    if (without.length === 0) return nothing;
    const { items, first } = pageOf(without, this.firstWithout, PAGE);
    const readings = without.reduce((sum, check) => sum + check.readings, 0);
    return html`<section aria-labelledby="without">
      <h2 id="without">What is measured without a band?</h2>
      <p class="quiet">
        ${countOf(without.length, 'check', decimalMark)} with ${countOf(readings, 'reading', decimalMark)} that nothing
        can judge.
      </p>
      <div class="sideways">
        <table class="narrow" aria-labelledby="without">
          <thead>
            <tr>
              <th scope="col">family</th>
              <th scope="col">point</th>
              <th scope="col">stage</th>
              <th scope="col">mode</th>
              <th scope="col" class="number">readings</th>
            </tr>
          </thead>
          <tbody>
            ${items.map(
              ({ family, point, stage, mode, readings: count }) =>
                html`<tr>
                  <td>${family}</td>
                  <th scope="row">${point}</th>
                  <td>${stage}</td>
                  <td>${mode}</td>
                  <td class="number">
                    ${this.renderCount(
                      count,
                      [only('family', family), only('point', point), only('stage', stage), only('mode', mode)],
                      `readings of ${family}, ${point}, ${stage}`,
                    )}
                  </td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <bt-paging
        .total=${without.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'checks'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turnWithout}
      ></bt-paging>
    </section>`;
  }

  private renderAnswer() {
    const { answer } = this.overview;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet">Opening the bands.</p>`;
    const { families, bands, without } = answer.value;
    const { family } = this;
    const here = (name: string): boolean => family === undefined || family === name;
    const names = families.map(({ name }) => name);
    return html`
      ${names.length > 1 ? this.renderFamilies(names) : nothing}
      ${this.renderBands(bands.filter(({ band }) => here(band.family)))}
      ${this.renderWithout(without.filter((check) => here(check.family)))}
    `;
  }

  override render() {
    return html`<h1>Bands</h1>
      ${this.renderAnswer()}`;
  }
}

function only(field: 'family' | 'point' | 'stage' | 'mode', value: string): Filter {
  return { field, oneOf: [value] };
}

function filtersOf({ family, point, stage, mode }: Band): readonly Filter[] {
  const check = [only('family', family), only('point', point), only('mode', mode)];
  return stage === undefined ? check : [...check, only('stage', stage)];
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-bands-place': BandsPlace;
  }
}

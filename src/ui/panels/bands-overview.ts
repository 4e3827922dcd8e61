import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Band } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { BandLine, BandsOverview, Filter } from '../../session/answers.ts';
import { expectationText, limitsText } from '../band-text.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';
import { bandsHash, hashOf, readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';

const PAGE = 200;

/**
 * The bands of each family, with what they judged, and the checks that still have none.
 * @fires save-wanted - all bands are to be saved as a file
 */
@customElement('bt-bands-overview')
export class BandsOverviewElement extends LitElement {
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

      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 1.5rem;
        align-items: baseline;
        max-width: none;
        margin: 0.5rem 0;
      }

      .ways > * {
        min-block-size: 1.5rem;
      }

      td.expects {
        min-width: 15rem;
      }
    `,
  ];

  @state() private firstBand = 0;
  @state() private firstWithout = 0;

  @property({ attribute: false }) overview!: BandsOverview;
  /** The one family that is shown; undefined for all. */
  @property({ attribute: false }) family: string | undefined;
  @property({ attribute: false }) decimalMark: DecimalMark = '.';

  /** The ways on from here, for the family that is shown or for all of them. */
  private renderWays() {
    const { family } = this;
    return html`<p class="ways">
      ${
        family === undefined
          ? html`<a href=${bandsHash('family')}>New family</a>`
          : html`<a href=${bandsHash('proposals', { family })}>Propose bands for ${family}</a>
              <a href=${bandsHash('family', { family })}>Points and parts</a>`
      }
      <a href=${bandsHash('meters')}>Meters</a>
      <button class="plain" type="button" @click=${this.save}>Save all bands as CSV</button>
    </p>`;
  }

  private save(): void {
    this.dispatchEvent(new CustomEvent('save-wanted'));
  }

  private turnBands(event: CustomEvent<number>): void {
    this.firstBand = event.detail;
  }

  private turnWithout(event: CustomEvent<number>): void {
    this.firstWithout = event.detail;
  }

  private renderFamilies(families: readonly string[]) {
    const link = (name: string, family?: string) => {
      const about = family === undefined ? {} : { family };
      const current = family === this.family ? 'true' : 'false';
      return html`<a href=${bandsHash(undefined, about)} aria-current=${current}>${name}</a>`;
    };
    return html`<nav aria-label="Families">
      ${link('All families')} ${families.map((family) => link(family, family))}
    </nav>`;
  }

  private renderBand({ band, readings, outOfBand }: BandLine) {
    const { decimalMark } = this;
    const unit = MODE_UNITS[band.mode];
    return html`<tr>
      ${this.family === undefined ? html`<td>${band.family}</td>` : nothing}
      <th scope="row"><a href=${bandsHash('check', placeOf(band))}>${band.point}</a></th>
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
    const text = countText(count, this.decimalMark);
    if (count === 0) return html`<span class="quiet">${text}</span>`;
    return html`<a href=${readingsHash({ filters })} aria-label="${text} ${what}">${text}</a>`;
  }

  private renderBands(bands: readonly BandLine[]) {
    const { decimalMark } = this;
    if (bands.length === 0) {
      return html`<p>
        No band is set here, so no reading can be judged.
        ${
          this.family === undefined
            ? nothing
            : html`<a href=${bandsHash('proposals', { family: this.family })}>Let them be proposed</a> from boards known
                to be good, or`
        }
        <a href=${hashOf('shift')}>bring in</a> a table of bands: family, point, mode, and what the reading should be.
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
    const { decimalMark } = this;
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
                  <th scope="row">
                    <a href=${bandsHash('check', { family, point, stage, mode } as Check)}>${point}</a>
                  </th>
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

  override render() {
    const { families, bands, without } = this.overview;
    const { family } = this;
    const here = (name: string): boolean => family === undefined || family === name;
    const names = families.map(({ name }) => name);
    return html`${names.length > 1 ? this.renderFamilies(names) : nothing} ${this.renderWays()}
    ${this.renderBands(bands.filter(({ band }) => here(band.family)))}
    ${this.renderWithout(without.filter((check) => here(check.family)))}`;
  }
}

/** Where a band is edited; one for every stage leaves the stage open. */
function placeOf({ family, point, stage, mode }: Band): Partial<Check> {
  return { family, point, mode, ...(stage === undefined ? {} : { stage }) };
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
    'bt-bands-overview': BandsOverviewElement;
  }
}

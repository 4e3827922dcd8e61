import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { guard } from 'lit/directives/guard.js';
import type { FamilyPage, SettingsChanges } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import type { FigureFrame } from '../charts/figure-frame.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { SightController } from '../controllers/sight-controller.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { complaintsAgainstParts, whatAComplaintPointsTo } from './families-complaints.ts';
import { dayField, selectField } from './families-fields.ts';
import { doRepairsHold } from './families-holding.ts';
import { whatBelongsInAKit } from './families-kit.ts';
import { liveReadings } from './families-live.ts';
import { whatStandsOut } from './families-others.ts';
import { familyPageStyles } from './families-page.styles.ts';
import { inCircuitAgainstOut, whichPartsFail } from './families-parts.ts';
import { doesItPay } from './families-pays.ts';
import { whatToProbeFirst } from './families-probing.ts';
import {
  familyQuery,
  readFamilyAsked,
  withAsked,
  writeFamilyAsked,
  type AskedChanges,
  type FamilyAsked,
} from './families-query.ts';
import { whatToStock } from './families-stock.ts';
import { isItGettingWorse } from './families-time.ts';
import { failureSets, whatFailsTogether } from './families-together.ts';
import { answerFault, answerProgress, longAnswerStyles } from './long-answer.ts';

/** The figures of the page, in their order, and the words that lead to each. */
const FIGURES = [
  ['which parts fail', whichPartsFail],
  ['probe first', whatToProbeFirst],
  ['in circuit', inCircuitAgainstOut],
  ['together', whatFailsTogether],
  ['sets', failureSets],
  ['complaints', complaintsAgainstParts],
  ['likely parts', whatAComplaintPointsTo],
  ['over time', isItGettingWorse],
  ['do repairs hold', doRepairsHold],
  ['parts kit', whatBelongsInAKit],
  ['stock', whatToStock],
  ['does it pay', doesItPay],
  ['against others', whatStandsOut],
  ['live readings', liveReadings],
] as const;

/** A page is so many boxes below each other: its head, and its figures. Two pages in one grid line them up. */
export const FAMILY_PAGE_ROWS = 1 + FIGURES.length;

/** A family's page, and what was asked for it. */
interface Answered {
  readonly page: FamilyPage;
  readonly question: FamilyAsked;
}

/** How one family fails, and what to do about it: a figure for each question, narrowed by what the address asks for. */
@customElement('bt-family-page')
export class FamilyPageView extends LitElement {
  static override styles = [shared, familyPageStyles, longAnswerStyles];

  private readonly pages = new AnswerController<Answered | 'unknown'>(this, () => {
    const { session, family, asked } = this;
    if (session === undefined || family === '') return undefined;
    // What is only drawn of an answer asks for no other.
    const question = withAsked(asked, { part: undefined, beside: undefined });
    return {
      key: `${session.state.revision} ${family} ${writeFamilyAsked(question).toString()}`,
      ask: async (signal, report) => {
        const page = await session.ask('familyPage', [familyQuery(family, question)], signal, report);
        return page === undefined ? 'unknown' : { page, question };
      },
      keepsLast: this.shown === family,
    };
  });
  private readonly sight = new SightController<Answered>(this, () => [
    ...this.renderRoot.querySelectorAll('[data-figure]'),
  ]);
  /** The family that the answer is about. */
  private shown = '';
  /** The change of the bench's settings that was asked for last. */

  /** Why a price or the fee could not be kept. */
  private readonly making = new ChangeController(this);

  @property({ attribute: false }) session?: Session;
  @property({ attribute: false }) family = '';
  /** The address’s query. */
  @property({ attribute: false }) query = '';
  /** Whether it stands beside the family that the address names, and follows its filters. */
  @property({ attribute: false }) beside = false;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override updated(): void {
    const { answer: known } = this.pages;
    if (known.status === 'ready') this.shown = this.family;
  }

  private get asked(): FamilyAsked {
    return readFamilyAsked(this.query);
  }

  private readonly change = (changes: AskedChanges): void => {
    const parameters = writeFamilyAsked(withAsked(this.asked, changes));
    const [path = ''] = location.hash.split('?');
    const text = parameters.toString();
    location.hash =
      this.beside || path === '' ? hashOf('families', this.family, text) : text === '' ? path : `${path}?${text}`;
  };

  private readonly keepPrice = (part: string, price: number | undefined): void => {
    const { family } = this;
    const prices = new Map(this.asked.prices);
    if (prices.delete(part)) this.change({ prices });
    void this.keep({ prices: [{ family, part, price }] });
  };

  private readonly keepFee = (fee: number | undefined): void => {
    if (this.asked.fee !== undefined) this.change({ fee: undefined });
    void this.keep({ fee });
  };

  /** Changes what the bench states once for all its repairs. */
  private async keep(changes: SettingsChanges): Promise<void> {
    const { session } = this;
    if (session !== undefined) await this.making.make(() => session.ask('changeSettings', [changes]));
  }

  private onQuestion(event: Event): void {
    const at = (event.target as HTMLElement).getAttribute('data-to') ?? '';
    this.renderRoot.querySelector<FigureFrame>(`[data-figure="${at}"] bt-figure-frame`)?.reach();
  }

  private renderFilters(page: FamilyPage) {
    const { asked, change } = this;
    const { complaints, meters, benches } = page.choices;
    const mark = this.session?.state.decimalMark ?? '.';
    const narrowed = page.repairs !== page.allRepairs;
    return html`<div class="filters" role="group" aria-label="Which repairs">
        ${dayField('From', asked.from, (from) => {
          change({ from });
        })}
        ${dayField('To', asked.to, (to) => {
          change({ to });
        })}
        ${selectField('Complaint', asked.complaint, complaints, 'all', (complaint) => {
          change({ complaint });
        })}
        ${selectField('Measured with', asked.meter, meters, 'any meter', (meter) => {
          change({ meter });
        })}
        ${
          benches.length === 0 && asked.bench === undefined
            ? nothing
            : selectField('Repaired at', asked.bench, benches, 'any bench', (bench) => {
                change({ bench });
              })
        }
      </div>
      <p role="status">
        ${
          narrowed
            ? html`${countText(page.repairs, mark)} of ${countOf(page.allRepairs, 'repair', mark)} fit.
                <button class="plain" type="button" @click=${this.onAll}>Show all</button>`
            : `All ${countOf(page.allRepairs, 'repair', mark)}.`
        }
      </p>`;
  }

  private onAll(): void {
    this.change({ from: undefined, to: undefined, complaint: undefined, meter: undefined, bench: undefined });
  }

  private renderQuestions() {
    return html`<ul class="questions" aria-label="Figures of this page">
      ${FIGURES.map(
        ([name], at) =>
          html`<li><button class="plain" type="button" data-to=${at} @click=${this.onQuestion}>${name}</button></li>`,
      )}
    </ul>`;
  }

  /** Repairs whose dates cannot be: named, so that they can be put right. */
  private renderMisdated({ misdated }: FamilyPage) {
    if (misdated.length === 0) return nothing;
    const mark = this.session?.state.decimalMark ?? '.';
    const shown = misdated.slice(0, MOST_NAMED);
    return html`<p>
      ${countOf(misdated.length, 'repair', mark)} ${misdated.length === 1 ? 'is' : 'are'} dated far from all others, and
      left out of weeks and of stock:
      ${shown.map((repair, at) => html`${at === 0 ? '' : ', '}<a href=${hashOf('repairs', repair)}>${repair}</a>`)}${
        misdated.length > shown.length ? ` and ${countText(misdated.length - shown.length, mark)} more` : ''
      }.
    </p>`;
  }

  private renderHead(page: FamilyPage) {
    return html`${this.renderFilters(page)}${this.renderMisdated(page)}${this.renderQuestions()}`;
  }

  /** The figures of an answer, which stand as they are while the next one is awaited: their links too are of what was asked. */
  private renderFigures(answered: Answered) {
    const { change, keepPrice, keepFee } = this;
    const { part, beside } = this.asked;
    const mark = this.session?.state.decimalMark ?? '.';
    const versions = this.sight.versions(answered, FIGURES.length);
    return FIGURES.map(([, figure], at) => {
      const version = versions[at] ?? answered;
      const draw = () => {
        const asked = withAsked(version.question, { part, beside });
        return figure({ page: version.page, asked, mark, change, keepPrice, keepFee });
      };
      return html`<div data-figure=${at}>${guard([version, part, beside, mark], draw)}</div>`;
    });
  }

  override render() {
    const { answer: known } = this.pages;
    if (known.status === 'failed') {
      return answerFault(known.reason, this.pages, 'Count again');
    }
    if (known.value === undefined)
      return html`<p class="quiet" role="status">Counting failures.</p>
        ${answerProgress(this.pages, 'Counting failures')}`;
    if (known.value === 'unknown') {
      return html`<p>No board of a family ${this.family} is known: its name may be written otherwise.</p>`;
    }
    return html`<div>
        ${answerProgress(this.pages, 'Counting failures')} ${this.making.faultLine()}
        ${this.beside ? nothing : this.renderHead(known.value.page)}
      </div>
      ${this.renderFigures(known.value)}`;
  }
}

const MOST_NAMED = 12;

declare global {
  interface HTMLElementTagNameMap {
    'bt-family-page': FamilyPageView;
  }
}

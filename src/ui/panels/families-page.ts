import { html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { FamilyPage } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import type { FigureFrame } from '../charts/figure-frame.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
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
import type { FamilyView } from './families-view.ts';

/** The figures of the page, in their order, and the words that lead to each. */
const FIGURES = [
  ['which parts fail', whichPartsFail],
  ['in circuit', inCircuitAgainstOut],
  ['probe first', whatToProbeFirst],
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

interface Answered {
  readonly page: FamilyPage | undefined;
  readonly points: readonly string[];
  readonly watched: number;
}

/** How one family fails, and what to do about it: a figure for each question, narrowed by what the address asks for. */
@customElement('bt-family-page')
export class FamilyPageView extends LitElement {
  static override styles = [shared, familyPageStyles];

  private readonly days = new AnswerController<number>(this, () => {
    const { session } = this;
    return (
      session && { key: String(session.state.revision), ask: (signal) => lastDay(session, signal), keepsLast: true }
    );
  });
  private readonly pages = new AnswerController<Answered>(this, () => {
    const { session, family, asked } = this;
    const day = this.days.answer;
    const watched = asked.watched ?? (day.status === 'failed' ? 0 : day.value);
    if (session === undefined || family === '' || watched === undefined) return undefined;
    // What is only drawn of an answer asks for no other.
    const question = withAsked(asked, { part: undefined, beside: undefined, watched });
    return {
      key: `${session.state.revision} ${family} ${writeFamilyAsked(question).toString()}`,
      ask: (signal) => answer(session, family, question, watched, signal),
      keepsLast: this.shown === family,
    };
  });
  /** The family that the answer is about. */
  private shown = '';

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

  private onQuestion(event: Event): void {
    const at = (event.target as HTMLElement).getAttribute('data-to') ?? '';
    this.renderRoot.querySelector<FigureFrame>(`[data-figure="${at}"] bt-figure-frame`)?.reach();
  }

  private renderFilters(page: FamilyPage) {
    const { asked, change } = this;
    const { complaints, meters } = page.choices;
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
    this.change({ from: undefined, to: undefined, complaint: undefined, meter: undefined });
  }

  private renderQuestions() {
    return html`<ul class="questions" aria-label="Figures of this page">
      ${FIGURES.map(
        ([name], at) =>
          html`<li><button class="plain" type="button" data-to=${at} @click=${this.onQuestion}>${name}</button></li>`,
      )}
    </ul>`;
  }

  private renderPage(page: FamilyPage, points: readonly string[], watched: number) {
    const { asked, change } = this;
    const mark = this.session?.state.decimalMark ?? '.';
    const view: FamilyView = { page, asked, points, watched, mark, change };
    return html`${this.beside ? nothing : html`${this.renderFilters(page)}${this.renderQuestions()}`}
    ${FIGURES.map(([, figure], at) => html`<div data-figure=${at}>${figure(view)}</div>`)}`;
  }

  override render() {
    const { answer: known } = this.pages;
    if (known.status === 'failed') return html`<p role="alert">${known.reason}</p>`;
    if (known.value === undefined) return html`<p class="quiet" role="status">Counting failures.</p>`;
    const { page, points, watched } = known.value;
    if (page === undefined) {
      return html`<p>No board of a family ${this.family} is known: its name may be written otherwise.</p>`;
    }
    return this.renderPage(page, points, watched);
  }
}

async function answer(
  session: Session,
  family: string,
  asked: FamilyAsked,
  watched: number,
  signal: AbortSignal,
): Promise<Answered> {
  const [page, points] = await Promise.all([
    session.ask('familyPage', [familyQuery(family, asked, watched)], signal),
    session.ask('facet', [{ filters: [{ field: 'family', oneOf: [family] }], sort: [] }, 'point'], signal),
  ]);
  return { page, points: points.map(({ value }) => value), watched };
}

const DAY = 86_400_000;
/** The earliest time that there is: readings without a time do not pass it. */
const EVER = -8.64e15;

/** The last day on which the bench wrote anything down, as nothing is known of what came back later; 0 where nothing has a date. */
async function lastDay(session: Session, signal: AbortSignal): Promise<number> {
  const latest = { filters: [{ field: 'time', from: EVER }], sort: [{ field: 'time', descending: true }] } as const;
  const [rows, lines] = await Promise.all([
    session.ask('window', [latest, 0, 1], signal),
    session.ask('repairs', [], signal),
  ]);
  const last = lines.reduce(
    (day, { repair }) => Math.max(day, known(repair.received), known(repair.returned)),
    known(rows[0]?.time ?? NaN),
  );
  return last === -Infinity ? 0 : Math.floor(last / DAY) * DAY;
}

function known(time: number): number {
  return Number.isNaN(time) ? -Infinity : time;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-family-page': FamilyPageView;
  }
}

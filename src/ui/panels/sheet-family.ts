import { LitElement, html } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { isLiveBand, type Band } from '../../domain/band.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { FamilyPage } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { familySheetHash, hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { familyQuery, readFamilyAsked, type FamilyAsked } from './families-query.ts';
import type { FamilyFigures } from './families-view.ts';
import {
  countedRepairs,
  failingAsOne,
  failingParts,
  holdingRepairs,
  likelyParts,
  probingFirst,
  readingsUnderPower,
} from './sheet-family-sections.ts';
import { sheetCautions, sheetHead } from './sheet-frame.ts';
import { printAlone } from './sheet-print.ts';
import { sheetStyles } from './sheet-styles.ts';

interface Answered {
  readonly page: FamilyPage | undefined;
  /** What its points should read under power. */
  readonly live: readonly Band[];
}

/** The sheet of a family: which of its parts fail, what to probe first, what complaints point to, and what it should read under power. */
@customElement('bt-sheet-family')
export class SheetFamily extends LitElement {
  static override styles = [shared, sheetStyles];

  private readonly answers = new AnswerController<Answered>(this, () => ({
    key: `${this.session.state.revision} ${this.family} ${this.query}`,
    ask: (signal) => this.askAll(signal),
    keepsLast: true,
  }));

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) family = '';
  /** The address's query, as the family's page has it. */
  @property({ attribute: false }) query = '';

  constructor() {
    super();
    followSession(this, () => this.session);
    printAlone(this);
  }

  private get asked(): FamilyAsked {
    return readFamilyAsked(this.query);
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  private async askAll(signal: AbortSignal): Promise<Answered> {
    const { session, family, asked } = this;
    const [page, { bands }] = await Promise.all([
      session.ask('familyPage', [familyQuery(family, asked)], signal),
      session.ask('bands', [], signal),
    ]);
    const live = bands.map(({ band }) => band).filter((band) => band.family === family && isLiveBand(band));
    return { page, live };
  }

  private renderSheet(view: FamilyFigures, live: Answered['live']) {
    return html`${countedRepairs(view)} ${failingParts(view)} ${probingFirst(view)} ${likelyParts(view)}
    ${failingAsOne(view)} ${holdingRepairs(view)} ${readingsUnderPower(live, view.mark)}
    ${sheetCautions('Before anyone works on these boards')}`;
  }

  private renderAnswer() {
    const { answer } = this.answers;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet" role="status">Counting failures.</p>`;
    const { page, live } = answer.value;
    if (page === undefined) return html`<p>No board of a family ${this.family} is known: its name may be written otherwise.</p>`; // prettier-ignore
    return this.renderSheet({ page, asked: this.asked, mark: this.mark }, live);
  }

  override render() {
    const { family, query } = this;
    return html`${sheetHead(
      { title: family, kind: 'Family sheet', back: [hashOf('families', family, query), 'Back to the family'] },
      html`<a href=${familySheetHash(family, 'kit', query)}>Kit list to print</a>`,
    )}
    ${this.renderAnswer()}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-sheet-family': SheetFamily;
  }
}

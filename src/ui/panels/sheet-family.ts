import { html } from 'lit';
import { customElement } from 'lit/decorators.js';
import { isLiveBand, type Band } from '../../domain/band.ts';
import type { FamilyPage } from '../../session/answers.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { familySheetHash, hashOf } from '../route.ts';
import { familyQuery } from './families-query.ts';
import type { FamilyFigures } from './families-view.ts';
import { FamilySheet } from './family-sheet.ts';
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

interface Answered {
  readonly page: FamilyPage | undefined;
  /** What its points should read under power. */
  readonly live: readonly Band[];
}

/** The sheet of a family: which of its parts fail, what to probe first, what complaints point to, and what it should read under power. */
@customElement('bt-sheet-family')
export class SheetFamily extends FamilySheet {
  private readonly answers = new AnswerController<Answered>(this, () => ({
    key: this.key,
    ask: (signal) => this.askAll(signal),
    keepsLast: true,
  }));

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

import { html, nothing } from 'lit';
import { customElement } from 'lit/decorators.js';
import type { FamilyPage } from '../../session/answers.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { familySheetHash, hashOf } from '../route.ts';
import { countOf, countText, listText } from '../words.ts';
import { familyQuery } from './families-query.ts';
import { tooFew, type FamilyFigures } from './families-view.ts';
import { FamilySheet } from './family-sheet.ts';
import { sheetCautions, sheetHead } from './sheet-frame.ts';
import { numberColumns, sheetTable } from './sheet-table.ts';

type Kit = NonNullable<FamilyPage['kit']>;

/** More repairs that the kit does not cover are counted, not named. */
const MOST_LEFT_OUT = 12;

/** The list of a family's parts kit: what goes into it, with prices and what to stock, and what it covers. */
@customElement('bt-sheet-kit')
export class SheetKit extends FamilySheet {
  private readonly answers = new AnswerController<{ readonly page: FamilyPage | undefined }>(this, () => ({
    key: this.key,
    ask: async (signal) => ({
      page: await this.session.ask('familyPage', [familyQuery(this.family, this.asked)], signal),
    }),
    keepsLast: true,
  }));

  private renderKit(kit: Kit, view: FamilyFigures) {
    const { mark } = view;
    return html`<section>
        <h2 id="kit">What goes into the kit?</h2>
        <p>${coverage(kit, view)}</p>
        ${sheetTable('kit', columnsOf(view), rowsOf(kit, view))}
        ${
          kit.price === undefined
            ? nothing
            : html`<p>One of each: <b>${fixedText(kit.price, 2, mark)}</b>, in the bench's money.</p>`
        }
      </section>
      ${stockWords(view)} ${notInKit(kit, view)}`;
  }

  private renderAnswer() {
    const { answer } = this.answers;
    if (answer.status === 'failed') return html`<p role="alert">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet" role="status">Choosing the parts.</p>`;
    const { page } = answer.value;
    if (page === undefined) return html`<p>No board of a family ${this.family} is known: its name may be written otherwise.</p>`; // prettier-ignore
    const view: FamilyFigures = { page, asked: this.asked, mark: this.mark };
    const few = tooFew(view);
    if (few !== undefined) return html`<p>${few}</p>`;
    if (page.kit !== undefined) return this.renderKit(page.kit, view);
    return html`<p>
      ${page.kitCurve.length === 0 ? 'No repair needed a part: there is nothing to put in a kit.' : unpriced(page)}
    </p>`;
  }

  override render() {
    const { family, query } = this;
    return html`${sheetHead(
      {
        title: `Parts kit for ${family}`,
        kind: 'Kit list',
        back: [hashOf('families', family, query), 'Back to the family'],
      },
      html`<a href=${familySheetHash(family, 'sheet', query)}>Family sheet to print</a>`,
    )}
    ${this.renderAnswer()} ${sheetCautions('Before anyone fits these parts')}`;
  }
}

/** What the kit covers, in words. */
function coverage({ parts, covered, repairs, leftOut, price, proved }: Kit, { asked, mark }: FamilyFigures) {
  const kind = `${price === undefined ? 'smallest' : 'cheapest'} kit${proved ? '' : ' found'}`;
  const missed = leftOut.slice(0, MOST_LEFT_OUT).map((repair) => html` <span class="whole">${repair}</span>`);
  const more = leftOut.length - missed.length;
  return html`The ${kind} that covers at least ${percentText(asked.kitShare, mark)} of the repairs that needed a part:
  ${countOf(parts.length, 'part', mark)} cover ${countText(covered, mark)} of ${countText(repairs, mark)},
  ${percentText(covered / repairs, mark)}. A repair is covered when every part that it needed is in the kit: those
  proved failed, and those suspected.
  ${leftOut.length === 0 ? nothing : html`Not covered:${missed.map((one, at) => html`${at === 0 ? '' : ','}${one}`)}${more === 0 ? '' : ` and ${countText(more, mark)} more`}.`}`;
}

function columnsOf({ page: { prices } }: FamilyFigures) {
  const priced = prices.length === 0 ? [] : ['price of one'];
  return [{ title: 'part' }, ...numberColumns('repairs that needed it', 'replaced in', ...priced, 'to stock')];
}

function rowsOf({ parts }: Kit, { page, mark }: FamilyFigures): readonly (readonly string[])[] {
  const prices = new Map(page.prices);
  return parts.map((part) => {
    const price = prices.get(part);
    const stock = page.stock?.find((one) => one.part === part);
    const counts = page.failures.find((one) => one.part === part);
    return [
      `☐ ${part}`,
      countText((counts?.failed ?? 0) + (counts?.suspected ?? 0), mark),
      countText(counts?.replaced ?? 0, mark),
      ...(prices.size === 0 ? [] : [price === undefined ? 'none entered' : fixedText(price, 2, mark)]),
      stock === undefined ? '' : countText(stock.keep, mark),
    ];
  });
}

/** Why there is no cheapest kit. */
function unpriced({ kitCurve, prices }: FamilyPage): string {
  const known = new Map(prices);
  const missing = (kitCurve.at(-1)?.parts ?? []).filter((part) => !known.has(part));
  return `For the cheapest kit each part that a repair needed has to have a price: ${listText(missing)} ${missing.length === 1 ? 'has' : 'have'} none yet. Enter the prices on the family's page, or clear them for the smallest kit.`;
}

function stockWords({ page, asked, mark }: FamilyFigures) {
  if (page.stock === undefined) return html`<p>Fewer than eight weeks to look back on: too few to say what to stock.</p>`; // prettier-ignore
  return html`<p>
    To stock: as many as suffice for the next ${countOf(asked.stockWeeks, 'week', mark)} with
    ${percentText(asked.stockEnough, mark)} probability, from what repairs here replaced, failed or not.
  </p>`;
}

/** What repairs needed that the kit does not hold. */
function notInKit({ parts }: Kit, { page, mark }: FamilyFigures) {
  const others = page.failures.filter(({ part, failed, suspected }) => failed + suspected > 0 && !parts.includes(part));
  if (others.length === 0) return html`<p>It holds every part that a repair has needed.</p>`;
  return html`<p>
    Needed now and then, and not in it:
    ${listText(others.map(({ part, failed, suspected }) => `${part} (${countOf(failed + suspected, 'repair', mark)})`))}.
  </p>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-sheet-kit': SheetKit;
  }
}

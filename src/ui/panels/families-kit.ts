import { html, nothing } from 'lit';
import '../charts/curve-chart.ts';
import type { CurveLine } from '../charts/curve-chart.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { hashOf } from '../route.ts';
import { countOf, countText, listText } from '../words.ts';
import { countCell, countedIn } from './families-cells.ts';
import { numberField } from './families-fields.ts';
import { KIT_SHARE } from './families-query.ts';
import { noFailures, repairsHash, tooFew, type FamilyView } from './families-view.ts';

type Kit = NonNullable<FamilyView['page']['kit']>;

const MOST_LEFT_OUT = 12;

/** The smallest set of parts that covers a share of the repairs, and the curve of all sizes. */
export function whatBelongsInAKit(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { kit, kitCurve } = page;
  return html`<bt-figure-frame
    .question=${'What belongs in a parts kit?'}
    .sentence=${`A kit covers a repair when every part that it needed is in it: those proved failed, and those suspected. For each size, the kit that covers most${kitCurve[0] === undefined ? '' : `, of ${countOf(kitCurve[0].repairs, 'repair', mark)} that needed a part`}.`}
    .instead=${kitCurve.length === 0 ? (noFailures(view) ?? 'No repair needed a part: there is nothing to put in a kit.') : tooFew(view)}
    .table=${kitCurve.length === 0 ? undefined : curveTable(view)}
    .file=${page.family}
  >
    <div slot="choices" class="choices" ?hidden=${kitCurve.length === 0}>
      ${numberField(
        'Repairs to cover, in percent',
        Math.round(asked.kitShare * 100),
        { min: 1, max: 100 },
        (percent) => {
          change({ kitShare: percent === undefined ? KIT_SHARE : percent / 100 });
        },
      )}
      ${pricesField(view)}
    </div>
    <bt-curve-chart
      .points=${pointsOf(view)}
      .from=${'first'}
      .across=${'parts in the kit'}
      .tickText=${(parts: number) => (Number.isInteger(parts) ? countText(parts, mark) : '')}
      .decimalMark=${mark}
      .about=${'Share of repairs covered, by number of parts in the kit'}
    ></bt-curve-chart>
    ${kit === undefined ? (kitCurve.length === 0 ? nothing : html`<p slot="words">${noKit(view)}</p>`) : html`<p slot="words">${kitWords(kit, view)}</p>`}
  </bt-figure-frame>`;
}

/** The parts that repairs needed, by the largest kit, with a field for the price of each. */
function pricesField({ page, mark, keepPrice }: FamilyView) {
  const parts = page.kitCurve.at(-1)?.parts ?? [];
  const prices = new Map(page.prices);
  const entered = parts.filter((part) => prices.has(part)).length;
  return html`<details class="prices">
    <summary>Prices (${countText(entered, mark)} of ${countText(parts.length, mark)} entered)</summary>
    <div class="choices">
      ${parts.map((part) =>
        numberField(part, prices.get(part), { min: 0, step: 0.01 }, (price) => {
          keepPrice(part, price);
        }),
      )}
    </div>
  </details>`;
}

function pointsOf(view: FamilyView): readonly CurveLine[] {
  const { page, mark } = view;
  const { kit } = page;
  return page.kitCurve.map(({ parts, covered, repairs }) => {
    const chosen = kit?.parts.length === parts.length && kit.covered === covered;
    const share = covered / repairs;
    return {
      cost: parts.length,
      share,
      chosen,
      repairs: repairsHash(view, { beyondKit: parts }),
      name: `${countOf(parts.length, 'part', mark)}: ${percentText(share, mark)}`,
      sentence: `${countOf(parts.length, 'part', mark)} cover ${countText(covered, mark)} of ${countOf(repairs, 'repair', mark)}, ${percentText(share, mark)}: ${listText(parts)}. ${leftOutText(repairs - covered, mark)}`,
    };
  });
}

/** Why no kit can be told, as a sentence. */
function noKit({ page }: FamilyView): string {
  const priced = new Set(page.prices.map(([part]) => part));
  const missing = (page.kitCurve.at(-1)?.parts ?? []).filter((part) => !priced.has(part));
  return priced.size > 0 && missing.length > 0
    ? `For the cheapest kit each part needs a price: ${listText(missing)} ${missing.length === 1 ? 'has' : 'have'} none yet.`
    : 'No kit can be told.';
}

function leftOutText(count: number, mark: FamilyView['mark']): string {
  return count === 0
    ? 'None is left out.'
    : `${countOf(count, 'repair', mark)} ${count === 1 ? 'is' : 'are'} left out.`;
}

function kitWords(kit: Kit, { mark }: FamilyView) {
  const { parts, covered, repairs, leftOut, price, proved } = kit;
  const shown = leftOut.slice(0, MOST_LEFT_OUT);
  const found = proved ? '' : ' found';
  const kind = price === undefined ? `The smallest kit${found}` : `The cheapest kit${found}, at ${fixedText(price, 2, mark)},`; // prettier-ignore
  return html`${kind} holds <b>${listText(parts)}</b>: it covers ${countText(covered, mark)} of
    ${countOf(repairs, 'repair', mark)}, ${percentText(covered / repairs, mark)}.
    ${proved ? nothing : 'There are too many parts to try all kits: a better one may exist.'}
    ${
      leftOut.length === 0
        ? nothing
        : html`Left out:
          ${shown.map((repair, at) => html`${at === 0 ? '' : ', '}<a href=${hashOf('repairs', repair)}>${repair}</a>`)}${
            leftOut.length > shown.length ? ` and ${countText(leftOut.length - shown.length, mark)} more` : ''
          }.`
    }`;
}

function curveTable(view: FamilyView): FigureTable {
  const { page, mark } = view;
  return {
    caption: 'For each size, a kit that covers most repairs',
    columns: [
      { title: 'parts' },
      { title: 'covers', number: true },
      { title: 'share', number: true },
      { title: 'left out', number: true },
      { title: 'in the kit' },
    ],
    rows: page.kitCurve.map(({ parts, covered, repairs }) => [
      { text: countText(parts.length, mark), value: parts.length },
      countCell(covered, mark),
      { text: percentText(covered / repairs, mark), value: covered / repairs },
      countedIn(repairs - covered, repairsHash(view, { beyondKit: parts }), mark),
      listText(parts),
    ]),
  };
}

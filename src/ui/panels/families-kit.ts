import { html, nothing } from 'lit';
import '../charts/curve-chart.ts';
import type { CurveLine } from '../charts/curve-chart.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { hashOf } from '../route.ts';
import { countOf, countText, listText } from '../words.ts';
import { countCell, numberCell, shareCells } from './families-cells.ts';
import { numberField } from './families-fields.ts';
import { KIT_SHARE, STOCK_ENOUGH, STOCK_WEEKS } from './families-query.ts';
import { badReadings, noFailures, tooFew, type FamilyView } from './families-view.ts';

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

/** How many of each part to keep for the weeks to come. */
export function whatToStock(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { stock } = page;
  const used = (stock ?? []).filter((one) => one.used > 0);
  const lines = used.map(({ part, expected, low, high, keep, used: seen, weeksSeen, law }): IntervalLine => ({
    name: `${part}: keep ${countText(keep, mark)}`,
    sentence: `${part}: ${countText(seen, mark)} used in ${countOf(weeksSeen, 'week', mark)}; ${fixedText(expected, 1, mark)} expected, ${fixedText(low, 1, mark)} to ${fixedText(high, 1, mark)} with 95 % confidence. Keep ${countText(keep, mark)} (${law} law).`,
    href: badReadings(view, [part]),
    title: part,
    label: `keep ${countText(keep, mark)}`,
    series: [{ low, high, middle: expected }],
  }));
  return html`<bt-figure-frame
    .question=${'How many of each to stock?'}
    .sentence=${`Expected use in the next ${countOf(asked.stockWeeks, 'week', mark)} as dots with their 95 % limits, from what was replaced${used[0] === undefined ? '' : ` in ${countOf(used[0].weeksSeen, 'week', mark)}`}, failed or not; and how many suffice with ${percentText(asked.stockEnough, mark)} probability.`}
    .instead=${used.length > 0 ? tooFew(view) : (tooFew(view) ?? (stock === undefined ? 'Fewer than eight weeks to look back on: too few to say.' : 'Nothing was replaced: there is nothing to stock.'))}
    .table=${stockTable(view, used)}
    .file=${page.family}
  >
    <div slot="choices" class="choices">
      ${numberField('Weeks ahead', asked.stockWeeks, { min: 1, max: 104 }, (weeks) => {
        change({ stockWeeks: weeks ?? STOCK_WEEKS });
      })}
      ${numberField(
        'Enough with a probability of, in percent',
        Number((asked.stockEnough * 100).toFixed(1)),
        { min: 50, max: 99.9, step: 0.1 },
        (percent) => {
          change({ stockEnough: percent === undefined ? STOCK_ENOUGH : percent / 100 });
        },
      )}
    </div>
    <bt-interval-rows
      .lines=${lines}
      .labelRoom=${96}
      .tickText=${(parts: number) => fixedText(parts, Number.isInteger(parts) ? 0 : 1, mark)}
      .decimalMark=${mark}
      .about=${'Expected use by part'}
    ></bt-interval-rows>
  </bt-figure-frame>`;
}

/** The parts that repairs needed, by the largest kit, with a field for the price of each. */
function pricesField({ page, asked, change }: FamilyView) {
  const parts = page.kitCurve.at(-1)?.parts ?? [];
  return html`<details class="prices">
    <summary>Prices (${countText(asked.prices.size, '.')} of ${countText(parts.length, '.')} entered)</summary>
    <div class="choices">
      ${parts.map((part) =>
        numberField(part, asked.prices.get(part), { min: 0, step: 'any' }, (price) => {
          const prices = new Map(asked.prices);
          if (price === undefined) prices.delete(part);
          else prices.set(part, price);
          change({ prices });
        }),
      )}
    </div>
  </details>`;
}

function pointsOf({ page, mark }: FamilyView): readonly CurveLine[] {
  const { kit } = page;
  return page.kitCurve.map(({ parts, covered, repairs }) => {
    const chosen = kit?.parts.length === parts.length && kit.covered === covered;
    const share = covered / repairs;
    return {
      cost: parts.length,
      share,
      chosen,
      name: `${countOf(parts.length, 'part', mark)}: ${percentText(share, mark)}`,
      sentence: `${countOf(parts.length, 'part', mark)} cover ${countText(covered, mark)} of ${countOf(repairs, 'repair', mark)}, ${percentText(share, mark)}: ${listText(parts)}.`,
    };
  });
}

function noKit({ page, asked }: FamilyView): string {
  const missing = (page.kitCurve.at(-1)?.parts ?? []).filter((part) => !asked.prices.has(part));
  return asked.prices.size > 0 && missing.length > 0
    ? `For the cheapest kit each part needs a price: ${listText(missing)} ${missing.length === 1 ? 'has' : 'have'} none yet.`
    : 'No kit can be told.';
}

function kitWords(kit: Kit, { mark }: FamilyView) {
  const { parts, covered, repairs, leftOut, price } = kit;
  const shown = leftOut.slice(0, MOST_LEFT_OUT);
  const kind = price === undefined ? 'The smallest kit' : `The cheapest kit, at ${fixedText(price, 2, mark)},`;
  return html`${kind} holds <b>${listText(parts)}</b>: it covers ${countText(covered, mark)} of
    ${countOf(repairs, 'repair', mark)}, ${percentText(covered / repairs, mark)}.
    ${
      leftOut.length === 0
        ? nothing
        : html`Left out:
          ${shown.map((repair, at) => html`${at === 0 ? '' : ', '}<a href=${hashOf('repairs', repair)}>${repair}</a>`)}${
            leftOut.length > shown.length ? ` and ${countText(leftOut.length - shown.length, mark)} more` : ''
          }.`
    }`;
}

function curveTable({ page, mark }: FamilyView): FigureTable {
  return {
    caption: 'For each size, a kit that covers most repairs',
    columns: [
      { title: 'parts' },
      { title: 'covers', number: true },
      { title: 'share', number: true },
      { title: 'in the kit' },
    ],
    rows: page.kitCurve.map(({ parts, covered, repairs }) => [
      { text: countText(parts.length, mark), value: parts.length },
      countCell(covered, mark),
      { text: percentText(covered / repairs, mark), value: covered / repairs },
      listText(parts),
    ]),
  };
}

function stockTable({ mark }: FamilyView, stock: NonNullable<FamilyView['page']['stock']>): FigureTable {
  return {
    caption: 'Use of each part, most used first',
    columns: [
      { title: 'part' },
      ...['used', 'expected', 'from', 'to', 'keep'].map((title) => ({ title, number: true })),
      { title: 'law' },
    ],
    rows: stock.map(({ part, used, expected, low, high, keep, law }) => [
      part,
      countCell(used, mark),
      ...[expected, low, high].map((value) => numberCell(value, 1, mark)),
      countCell(keep, mark),
      law,
    ]),
  };
}

/** Minutes, parts and comebacks against the fee. */
export function doesItPay(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { pays } = page;
  const few = tooFew(view);
  return html`<bt-figure-frame
    .question=${'Does it pay?'}
    .sentence=${`Minutes between the readings of a repair, without breaks of an hour; parts at the prices entered for the kit; the fee is earned once for each board returned working, and a comeback is repaired for nothing. ${countOf(pays.repairs, 'repair', mark)}.`}
    .instead=${few}
    .charted=${false}
    .table=${few === undefined ? paysTable(view) : undefined}
    .file=${page.family}
  >
    <div slot="choices" class="choices">
      ${numberField('Fee for a board', asked.fee, { min: 0, step: 'any' }, (fee) => {
        change({ fee });
      })}
    </div>
    ${
      pays.unpriced === 0
        ? nothing
        : html`<p slot="words">
            ${countOf(pays.unpriced, 'repair', mark)} with a part that has no price
            ${pays.unpriced === 1 ? 'is' : 'are'} left out of what parts cost.
          </p>`
    }
  </bt-figure-frame>`;
}

function paysTable({ page, asked, mark }: FamilyView): FigureTable {
  const { minutes, partsCost, left, leftPerHour, returned, cameBack, comebackShare } = page.pays;
  const mean = (name: string, value: typeof partsCost, missing: string) =>
    value === undefined
      ? [name, { text: '' }, { text: missing }, { text: '' }, { text: '' }]
      : [
          name,
          countCell(value.repairs, mark),
          ...[value.mean, value.low, value.high].map((one) => numberCell(one, 1, mark)),
        ];
  const unpriced = asked.prices.size === 0 ? 'no prices entered' : 'too few';
  const [lower, median, upper] = minutes?.quartiles ?? [undefined, undefined, undefined];
  return {
    caption: `A repair of ${page.family}, mean with its 95 % limits`,
    columns: [
      { title: 'a repair takes' },
      ...['repairs', 'mean', 'from', 'to'].map((title) => ({ title, number: true })),
    ],
    rows: [
      mean('minutes at the bench', minutes, 'too few'),
      [
        'minutes, median and quartiles',
        minutes === undefined ? { text: '' } : countCell(minutes.repairs, mark),
        ...[median, lower, upper].map((one) => numberCell(one, 1, mark)),
      ],
      mean('parts', partsCost, unpriced),
      [
        'comes back',
        countCell(returned, mark),
        ...shareCells(
          comebackShare && { middle: cameBack / returned, low: comebackShare.lower, high: comebackShare.upper },
          mark,
        ),
      ],
      mean('left of the fee after parts', left, asked.fee === undefined ? 'no fee entered' : unpriced),
      [
        'left for an hour',
        leftPerHour === undefined ? { text: '' } : countCell(leftPerHour.repairs, mark),
        leftPerHour === undefined
          ? { text: asked.fee === undefined ? 'no fee entered' : unpriced }
          : numberCell(leftPerHour.amount, 1, mark),
        { text: '' },
        { text: '' },
      ],
    ],
  };
}

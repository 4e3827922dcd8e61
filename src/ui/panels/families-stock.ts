import { html } from 'lit';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { countOf, countText } from '../words.ts';
import { countCell, countedIn, numberCell } from './families-cells.ts';
import { numberField } from './families-fields.ts';
import { STOCK_ENOUGH, STOCK_WEEKS } from './families-query.ts';
import { badReadings, repairsHash, tooFew, type FamilyView } from './families-view.ts';

/** How many of each part to keep for the weeks to come. */
export function whatToStock(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { stock } = page;
  const used = (stock ?? []).filter((one) => one.used > 0);
  const lines = used.map(({ part, expected, low, high, keep, used: seen, weeksSeen, law }): IntervalLine => ({
    sentence: `${part}: ${countText(seen, mark)} used in ${countOf(weeksSeen, 'week', mark)}; ${fixedText(expected, 1, mark)} expected, ${fixedText(low, 1, mark)} to ${fixedText(high, 1, mark)} with 95 % confidence. Keep ${countText(keep, mark)} (${law} law).`,
    href: badReadings(view, [part]),
    repairs: repairsHash(view, { replaced: [part] }),
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

function stockTable(view: FamilyView, stock: NonNullable<FamilyView['page']['stock']>): FigureTable {
  const { mark } = view;
  return {
    caption: 'Use of each part, most used first',
    columns: [
      { title: 'part' },
      ...['used', 'expected', 'from', 'to', 'keep'].map((title) => ({ title, number: true })),
      { title: 'law' },
    ],
    rows: stock.map(({ part, used, expected, low, high, keep, law }) => [
      part,
      countedIn(used, repairsHash(view, { replaced: [part] }), mark),
      ...[expected, low, high].map((value) => numberCell(value, 1, mark)),
      countCell(keep, mark),
      law,
    ]),
  };
}

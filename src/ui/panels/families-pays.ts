import { html, nothing } from 'lit';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import { countOf } from '../words.ts';
import { countCell, numberCell, shareCells } from './families-cells.ts';
import { numberField } from './families-fields.ts';
import { tooFew, type FamilyView } from './families-view.ts';

/** Minutes, parts and comebacks against the fee. */
export function doesItPay(view: FamilyView) {
  const { page, mark, keepFee } = view;
  const { pays } = page;
  const few = tooFew(view);
  return html`<bt-figure-frame
    .question=${'Does it pay?'}
    .sentence=${`Minutes between the readings of a repair, without breaks of an hour; parts at the prices entered for the kit; the fee is earned once for each board returned working, and a comeback is repaired for nothing. Boards returned lately count as long as they were watched. ${countOf(pays.repairs, 'repair', mark)}.`}
    .instead=${few}
    .charted=${false}
    .table=${few === undefined ? paysTable(view) : undefined}
    .file=${page.family}
  >
    <div slot="choices" class="choices">
      ${numberField('Fee for a board', page.fee, { min: 0, step: 0.01 }, keepFee)}
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

function paysTable({ page, mark }: FamilyView): FigureTable {
  const { minutes, partsCost, left, leftPerHour, returned, comebackShare } = page.pays;
  const mean = (name: string, value: typeof partsCost, missing: string) =>
    value === undefined
      ? [name, { text: '' }, { text: missing }, { text: '' }, { text: '' }]
      : [
          name,
          countCell(value.repairs, mark),
          ...[value.mean, value.low, value.high].map((one) => numberCell(one, 1, mark)),
        ];
  const unpriced = page.prices.length === 0 ? 'no prices entered' : 'too few';
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
        comebackShare === undefined
          ? 'comes back'
          : `comes back within ${countOf(Math.round(comebackShare.days), 'day', mark)}`,
        countCell(returned, mark),
        ...shareCells(
          comebackShare && { middle: comebackShare.share, low: comebackShare.lower, high: comebackShare.upper },
          mark,
        ),
      ],
      mean(
        'left of the fee after parts',
        left,
        page.fee === undefined ? 'no fee entered' : page.prices.length === 0 ? unpriced : 'fewer than ten repairs tell',
      ),
      [
        'left for an hour',
        leftPerHour === undefined ? { text: '' } : countCell(leftPerHour.repairs, mark),
        leftPerHour === undefined
          ? { text: page.fee === undefined ? 'no fee entered' : unpriced }
          : numberCell(leftPerHour.amount, 1, mark),
        { text: '' },
        { text: '' },
      ],
    ],
  };
}

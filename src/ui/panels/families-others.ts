import { html } from 'lit';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { chanceText, percentText, shareText } from '../charts/share-text.ts';
import { countOf, countText, listText } from '../words.ts';
import { countCell, countedIn, shareCells } from './families-cells.ts';
import { badReadings, noFailures, repairsHash, type FamilyView } from './families-view.ts';

type Contrast = NonNullable<FamilyView['page']['standingOut']>[number];
type Side = Contrast['here'];

const LEVEL = 0.05;
const CLASSES: Readonly<Record<string, string>> = {
  F: 'fuses',
  D: 'diodes',
  Q: 'transistors',
  C: 'capacitors',
  R: 'resistors',
  T: 'transformers',
  U: 'chips',
  BR: 'bridges',
  J: 'joints',
};

/** Which classes of parts fail oftener or less often here than in all other families. */
export function whatStandsOut(view: FamilyView) {
  const { page, mark } = view;
  const contrasts = page.standingOut ?? [];
  const none =
    noFailures(view) ?? (contrasts.length === 0 ? 'There is no repair of another family to compare with.' : undefined);
  const sure = contrasts.filter(({ adjusted }) => adjusted <= LEVEL).map(({ partClass }) => classText(partClass));
  const found = sure.length === 0 ? 'None stands out from chance' : `${listText(sure)} stand out`;
  return html`<bt-figure-frame
    .question=${`What stands out in ${page.family} against other families?`}
    .sentence=${`The share of repairs with a proved failure of each class of parts, of those in which a part was measured: ${countOf(contrasts[0]?.here.repairs ?? 0, 'repair', mark)} here and ${contrasts[0] === undefined ? 'none' : countText(contrasts[0].elsewhere.repairs, mark)} of all other families, with 95 % intervals. ${found} (Fisher’s exact test, one in twenty false over all classes).`}
    .instead=${none}
    .table=${none === undefined ? tableOf(view, contrasts) : undefined}
    .file=${page.family}
  >
    <bt-interval-rows
      .lines=${contrasts.map((one) => lineOf(view, one))}
      .names=${['here', 'all other families']}
      .nameRoom=${104}
      .tickText=${(share: number) => percentText(share, mark)}
      .decimalMark=${mark}
      .about=${'Classes of parts by share of repairs, here and elsewhere'}
    ></bt-interval-rows>
  </bt-figure-frame>`;
}

/** A class of parts by its letters and in words. */
export function classText(partClass: string): string {
  const words = CLASSES[partClass];
  return words === undefined ? partClass : `${partClass} ${words}`;
}

function shareOf({ count, repairs, share }: Side) {
  return { middle: count / repairs, low: share.lower, high: share.upper };
}

function lineOf(view: FamilyView, { partClass, here, elsewhere, adjusted }: Contrast): IntervalLine {
  const { mark, page } = view;
  const told = (side: Side): string =>
    `${countText(side.count, mark)} of ${countOf(side.repairs, 'repair', mark)} (${shareText(shareOf(side), mark)})`;
  const parts = page.failures.map(({ part }) => part).filter((part) => part.replace(/\d.*$/, '') === partClass);
  return {
    sentence: `${classText(partClass)} failed in ${told(here)} here and in ${told(elsewhere)} elsewhere; adjusted ${chanceText(adjusted, mark)}: ${adjusted <= LEVEL ? 'it stands out' : 'may be chance'}.`,
    ...(parts.length === 0 ? {} : { href: badReadings(view, parts) }),
    repairs: repairsHash(view, { failedClass: partClass }),
    title: classText(partClass),
    label:
      adjusted <= LEVEL
        ? `${here.count / here.repairs > elsewhere.count / elsewhere.repairs ? '▲ more' : '▼ less'}, ${chanceText(adjusted, mark)}`
        : 'may be chance',
    series: [shareOf(here), shareOf(elsewhere)],
  };
}

function tableOf(view: FamilyView, contrasts: readonly Contrast[]): FigureTable {
  const { mark } = view;
  const titles = ['here', 'share', 'from', 'to', 'elsewhere', 'share there', 'from there', 'to there', 'adjusted p'];
  return {
    caption: 'Repairs with a proved failure of the class, the surest difference first',
    columns: [{ title: 'class' }, ...titles.map((title) => ({ title, number: true }))],
    rows: contrasts.map(({ partClass, here, elsewhere, adjusted }) => [
      classText(partClass),
      countedIn(here.count, repairsHash(view, { failedClass: partClass }), mark),
      ...shareCells(shareOf(here), mark),
      countCell(elsewhere.count, mark),
      ...shareCells(shareOf(elsewhere), mark),
      { text: chanceText(adjusted, mark).replace('p = ', '').replace('p < ', '< '), value: adjusted },
    ]),
  };
}

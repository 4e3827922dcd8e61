import { html } from 'lit';
import type { DecimalMark } from '../../domain/quantity.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import { chanceText, fixedText, percentText, shareText } from '../charts/share-text.ts';
import '../charts/steps-chart.ts';
import type { StepsLine } from '../charts/steps-chart.ts';
import type { Holding } from '../../session/answers.ts';
import { hashOf } from '../route.ts';
import { countOf, countText, dayText, listText } from '../words.ts';
import { countCell, numberCell, shareCells } from './families-cells.ts';
import { dayField } from './families-fields.ts';
import { chosenBy } from './families-query.ts';
import { repairsHash, tooFew, type FamilyView } from './families-view.ts';
import { writeRepairsQuery } from './repairs-query.ts';

type HoldingAnswer = FamilyView['page']['holding'];

const LEVEL = 0.05;

const RENEWED: Readonly<Record<HoldingAnswer['groups'][number]['renewal'], string>> = {
  'only what measured bad': 'only what measured bad renewed',
  'whole group renewed': 'whole group renewed',
  neither: 'nothing proved, or not renewed',
};

/** Time to comeback, and whether renewing whole groups holds better. */
export function doRepairsHold(view: FamilyView) {
  const { page, mark, change } = view;
  const { all, others } = page.holding;
  const everywhere = hashOf('repairs', undefined, writeRepairsQuery({ ...chosenBy(view.asked), cameBack: true }));
  const lines = [
    lineOf(page.family, all, repairsHash(view, { cameBack: true }), mark),
    lineOf('all others', others, everywhere, mark),
  ].filter(({ steps }) => steps.length > 0);
  return html`<bt-figure-frame
    .question=${'Do repairs hold?'}
    .sentence=${sentenceOf(view)}
    .instead=${instead(view)}
    .table=${all === undefined ? undefined : tableOf(view)}
    .file=${page.family}
  >
    <div slot="choices" class="choices">
      ${dayField('Watched until', view.page.watched, (watched) => {
        change({ watched });
      })}
    </div>
    <bt-steps-chart
      .lines=${lines}
      .across=${'days since the board went back'}
      .decimalMark=${mark}
      .about=${'Share of returned boards that came back, by days'}
    ></bt-steps-chart>
    <p slot="words">${comparedSentence(view)} ${leftOutSentence(page.holding.leftOut, view)}</p>
  </bt-figure-frame>`;
}

function instead(view: FamilyView): string | undefined {
  const { all } = view.page.holding;
  if (all === undefined) return tooFew(view) ?? 'No board of these went back as working by that day: too few to say.';
  if (all.comebacks > 0) return undefined;
  return `None of ${countOf(all.repairs, 'returned board', view.mark)} came back by ${dayText(view.page.watched)}: there is no curve to draw, and how long they hold is not known yet.`;
}

function sentenceOf({ page, mark }: FamilyView): string {
  const { all } = page.holding;
  const of =
    all === undefined
      ? ''
      : ` ${countOf(all.repairs, 'board', mark)} went back, ${countText(all.comebacks, mark)} came back by ${dayText(page.watched)}; the others count for as long as they were watched.`;
  return `The share of boards that came back within so many days of their return (Kaplan–Meier), shaded with its 95 % limits.${of}`;
}

/** Steps of the share that came back: what is left of one. */
export function lineOf(name: string, holding: Holding | undefined, repairs: string, mark: DecimalMark): StepsLine {
  const steps = (holding?.steps ?? []).map(({ time, survival, limits, atRisk, events }) => {
    const share = 1 - survival;
    const turned = limits && { low: 1 - limits.upper, high: 1 - limits.lower };
    const days = countOf(Math.round(time), 'day', mark);
    const known = turned === undefined ? '' : `, ${shareText(turned, mark)} with 95 % confidence`;
    return {
      time,
      share,
      limits: turned,
      name: `${name}, ${days}: ${percentText(share, mark)} came back`,
      sentence: `${name}: within ${days} ${percentText(share, mark)} came back${known}. ${countText(events, mark)} of ${countText(atRisk, mark)} still watched came back then.`,
      repairs,
    };
  });
  return { name, steps };
}

function tableOf({ page, mark }: FamilyView): FigureTable {
  const { all, groups, others } = page.holding;
  const rows: readonly (readonly [string, Holding | undefined])[] = [
    [page.family, all],
    ...groups.map(({ renewal, holding }) => [RENEWED[renewal], holding] as const),
    ['all other families', others],
  ];
  const titles = ['went back', 'came back', 'share', 'from', 'to', 'by day', 'half by day'];
  return {
    caption: 'Boards that went back, the share that came back by the last comeback seen',
    columns: [{ title: 'boards' }, ...titles.map((title) => ({ title, number: true }))],
    rows: rows.map(([name, holding]) => {
      const last = holding?.steps.at(-1);
      const share = last && {
        middle: 1 - last.survival,
        low: last.limits === undefined ? NaN : 1 - last.limits.upper,
        high: last.limits === undefined ? NaN : 1 - last.limits.lower,
      };
      return [
        name,
        countCell(holding?.repairs ?? 0, mark),
        countCell(holding?.comebacks ?? 0, mark),
        ...(share === undefined
          ? [{ text: holding === undefined ? 'too few' : 'none yet' }, { text: '' }, { text: '' }]
          : knownCells(share, mark)),
        numberCell(last?.time, 0, mark),
        holding?.median === undefined ? { text: 'not reached' } : numberCell(holding.median, 0, mark),
      ];
    }),
  };
}

function knownCells(
  share: { readonly middle: number; readonly low: number; readonly high: number },
  mark: FamilyView['mark'],
) {
  return Number.isNaN(share.low)
    ? [...shareCells(share, mark).slice(0, 1), { text: '' }, { text: '' }]
    : shareCells(share, mark);
}

function comparedSentence({ page, mark }: FamilyView): string {
  const { renewalTest, othersTest } = page.holding;
  return `${testSentence(renewalTest, 'boards of which only what measured bad was renewed', 'boards of which the whole group was renewed', mark)} ${testSentence(othersTest, `boards of ${page.family}`, 'boards of all other families', mark)}`;
}

export function testSentence(
  test: HoldingAnswer['renewalTest'],
  first: string,
  second: string,
  mark: DecimalMark,
): string {
  if (test === undefined) return `Too few comebacks to compare ${first} with ${second}.`;
  const [seen, expected] = [test.observed[0], test.expected[0]];
  const told = `${countText(seen, mark)} comebacks seen among ${first}, ${fixedText(expected, 1, mark)} to be expected were they like ${second} (log-rank ${chanceText(test.p, mark)})`;
  if (test.p > LEVEL) return `No difference can be told: ${told}.`;
  return `${seen > expected ? 'They come back sooner' : 'They hold better'}: ${told}.`;
}

function leftOutSentence(leftOut: HoldingAnswer['leftOut'], { mark }: FamilyView): string {
  const words: Readonly<Record<keyof HoldingAnswer['leftOut'], string>> = {
    'no record': 'known from readings alone',
    'not returned': 'not returned as working',
    'returned on an unknown day': 'returned as working on a day that is not known',
    'comeback before its return':
      'whose comeback is dated before the return, which cannot be: correct the dates of the repair',
    'returned after that day': 'returned after that day',
  };
  const entries = Object.entries(leftOut) as [keyof HoldingAnswer['leftOut'], number][];
  const told = entries.flatMap(([reason, count]) =>
    count === 0 ? [] : [`${countText(count, mark)} ${words[reason]}`],
  );
  return told.length === 0 ? '' : `Left out: ${listText(told)}.`;
}

import { html } from 'lit';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/matrix-chart.ts';
import type { MatrixEntry } from '../charts/matrix-chart.ts';
import { chanceText, fixedText } from '../charts/share-text.ts';
import { hashOf } from '../route.ts';
import { countOf, countText, listText } from '../words.ts';
import { countCell, countedIn, numberCell, shareCells } from './families-cells.ts';
import { badReadings, noFailures, repairsHash, type FamilyView } from './families-view.ts';

type Pair = FamilyView['page']['pairs'][number];

/** In one family of twenty any pair up to this is false. */
const LEVEL = 0.05;
/** The parts that fail most; more do not fit side by side. */
const MOST_PARTS = 14;
const MOST_SETS = 12;
const EXAMPLES = ['latest repair', 'the one before', 'and before that'];

/** Which parts fail together: pairs as a matrix, and those that chance does not explain. */
export function whatFailsTogether(view: FamilyView) {
  const { page, mark } = view;
  const parts = page.failures
    .filter(({ failed }) => failed > 0)
    .map(({ part }) => part)
    .slice(0, MOST_PARTS);
  const sure = page.pairs.filter(standsOut);
  const found =
    sure.length === 0
      ? 'No pair fails more often together than chance explains'
      : `Framed: ${countOf(sure.length, 'pair', mark)} that ${sure.length === 1 ? 'fails' : 'fail'} more often together than chance explains`;
  return html`<bt-figure-frame
    .question=${'What fails together?'}
    .sentence=${`A cell counts the repairs, of ${countText(page.repairs, mark)}, in which both parts are proved failed; on the diagonal, those in which the one part is. ${found}.`}
    .instead=${page.pairs.length === 0 ? (noFailures(view) ?? 'Fewer than two parts are proved failed: there are no pairs.') : noFailures(view)}
    .table=${pairsTable(view, sure)}
    .file=${page.family}
  >
    <bt-matrix-chart
      .rows=${parts}
      .columns=${parts}
      .entries=${entriesOf(view, parts)}
      .decimalMark=${mark}
      .about=${'Pairs of parts by repairs in which both failed'}
    ></bt-matrix-chart>
    <details slot="words">
      <summary>How it was counted</summary>
      <p>
        A pair is held against chance on the repairs in which both parts were read: Fisher’s exact test, one-sided, over
        all ${countText(page.pairs.length, mark)} pairs at once by Holm’s rule (1979), so that one family in twenty
        shows any pair wrongly. How many times as often is told by the family’s failure model.
      </p>
    </details>
  </bt-figure-frame>`;
}

/** The sets of parts that fail as one, with repairs to look at. */
export function failureSets(view: FamilyView) {
  const { page, mark } = view;
  const sets = page.signatures.filter(({ parts }) => parts.length > 1);
  const shown = sets.slice(0, MOST_SETS);
  const few = noFailures(view);
  return html`<bt-figure-frame
    .question=${'Which sets of parts fail as one?'}
    .sentence=${`Sets of two parts or more that failed in two repairs or more of ${countText(page.repairs, mark)}, with no further part in all of them. The share is told by all that was read of these boards${sets.length > shown.length ? `; the ${shown.length} most frequent of ${countText(sets.length, mark)}` : ''}.`}
    .instead=${few ?? (sets.length === 0 ? 'No set of parts failed together in two repairs: too few to say.' : undefined)}
    .charted=${false}
    .table=${few === undefined ? setsTable(view, shown) : undefined}
    .file=${page.family}
  ></bt-figure-frame>`;
}

function standsOut({ adjusted, lift }: Pair): boolean {
  return adjusted <= LEVEL && lift > 1;
}

/** The half of the matrix below its diagonal, and the diagonal. */
function entriesOf(view: FamilyView, parts: readonly string[]): readonly (readonly (MatrixEntry | undefined)[])[] {
  const { page, mark } = view;
  return parts.map((row, at) =>
    parts.map((column, across): MatrixEntry | undefined => {
      if (across > at) return undefined;
      if (across === at) {
        const failed = page.failures.find(({ part }) => part === row)?.failed ?? 0;
        const sentence = `${row} is proved failed in ${countOf(failed, 'repair', mark)}.`;
        return {
          count: failed,
          name: `${row}: ${countText(failed, mark)}`,
          sentence,
          href: badReadings(view, [row]),
          repairs: repairsHash(view, { failed: [row] }),
        };
      }
      const pair = page.pairs.find(({ parts: own }) => own.includes(row) && own.includes(column));
      if (pair === undefined)
        return { count: 0, name: `${row} and ${column}: 0`, sentence: `${row} and ${column} never failed together.` };
      return {
        count: pair.together,
        framed: standsOut(pair),
        name: `${listText(pair.parts)}: ${countText(pair.together, mark)}`,
        sentence: pairSentence(pair, view),
        repairs: repairsHash(view, { failed: pair.parts }),
      };
    }),
  );
}

function pairSentence(pair: Pair, { mark }: FamilyView): string {
  const { parts, together, first, second, repairs, lift } = pair;
  const expected = fixedText(repairs === 0 ? 0 : (first * second) / repairs, 1, mark);
  const said = `${listText(parts)} failed together in ${countOf(together, 'repair', mark)} of the ${countText(repairs, mark)} in which both were read, ${expected} expected by chance`;
  return standsOut(pair)
    ? `${said}: more often together than chance explains, ${fixedText(lift, 1, mark)} times as often.`
    : `${said}: chance may explain it.`;
}

function pairsTable(view: FamilyView, sure: readonly Pair[]): FigureTable {
  const { mark } = view;
  const titles = ['both read', 'together', 'expected', 'times as often', 'adjusted p'];
  return {
    caption: 'Pairs that stand out, the surest first',
    columns: [{ title: 'parts' }, ...titles.map((title) => ({ title, number: true }))],
    rows: sure.map((pair) => [
      listText(pair.parts),
      countCell(pair.repairs, mark),
      countedIn(pair.together, repairsHash(view, { failed: pair.parts }), mark),
      numberCell((pair.first * pair.second) / pair.repairs, 1, mark),
      numberCell(pair.lift, 1, mark),
      { text: chanceText(pair.adjusted, mark).replace('p = ', '').replace('p < ', '< '), value: pair.adjusted },
    ]),
  };
}

function setsTable(view: FamilyView, sets: FamilyView['page']['signatures']): FigureTable {
  const { page, mark } = view;
  const numbers = ['repairs', 'share', 'from', 'to'].map((title) => ({ title, number: true }));
  return {
    caption: `Sets of failed parts of ${page.family}, the most frequent first`,
    columns: [{ title: 'parts' }, ...numbers, ...EXAMPLES.map((title) => ({ title }))],
    rows: sets.map(({ parts, count, share, examples }) => [
      listText(parts),
      countedIn(count, repairsHash(view, { failed: parts }), mark),
      ...shareCells({ middle: share.middle, low: share.lower, high: share.upper }, mark),
      ...EXAMPLES.map((_, at) => {
        const repair = examples.at(-1 - at);
        return repair === undefined ? '' : { text: repair, href: hashOf('repairs', repair) };
      }),
    ]),
  };
}

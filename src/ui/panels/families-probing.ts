import { html, nothing } from 'lit';
import '../charts/curve-chart.ts';
import type { CurveLine } from '../charts/curve-chart.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { countOf, countText, listText } from '../words.ts';
import { numberCell, shareCells } from './families-cells.ts';
import { checkBoxes, selectField } from './families-fields.ts';
import { pointReadings, tooFew, type FamilyView } from './families-view.ts';

type Probing = NonNullable<FamilyView['page']['probing']>;

const RULES: Readonly<Record<Probing['rule'], string>> = {
  ratio: 'By chance found for each second, which is the best order here, as no fault shows at two checks',
  exact: 'The best of all orders, since some faults show at several checks',
  greedy: 'Near the best order: there are too many checks to try all orders',
};

/** The order of checks that shows the fault in the least expected time. */
export function whatToProbeFirst(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { probing } = page;
  const parts = page.failures.map(({ part }) => part).sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  const choices = html`<div slot="choices" class="choices">
    ${selectField('Complaint of the board', asked.told, page.choices.complaints, 'any', (told) => {
      change({ told });
    })}
    ${checkBoxes('Measured good on it so far', parts, asked.good, (good) => {
      change({ good });
    })}
  </div>`;
  return html`<bt-figure-frame
    .question=${'What to probe first?'}
    .sentence=${probing === undefined ? 'The order of checks as received that shows the fault in the least expected time.' : sentenceOf(probing, view)}
    .instead=${instead(view)}
    .table=${probing && tableOf(probing, view)}
    .file=${page.family}
  >
    ${page.repairs === 0 ? nothing : choices}
    ${
      probing === undefined
        ? nothing
        : html`<bt-curve-chart
            .points=${pointsOf(probing, view)}
            .across=${'minutes spent probing, on past boards'}
            .tickText=${(minutes: number) => fixedText(minutes, Number.isInteger(minutes) ? 0 : 1, mark)}
            .decimalMark=${mark}
            .about=${'Share of faults found by each check, in the order given'}
          ></bt-curve-chart>`
    }
  </bt-figure-frame>`;
}

function instead(view: FamilyView): string | undefined {
  if (view.page.probing !== undefined) return undefined;
  const { good, told } = view.asked;
  const few = tooFew(view);
  if (few !== undefined) return few;
  const narrowed = [
    ...(told === undefined ? [] : [`under ${told}`]),
    ...(good.length === 0 ? [] : [`with ${listText(good)} good`]),
  ];
  return narrowed.length === 0
    ? 'Fewer than five repairs have a proved failure, or no timed check as received shows any of them: too few to say.'
    : `Fewer than five repairs ${narrowed.join(' and ')} have a proved failure, or no check that is left shows any of them: too few to say.`;
}

function sentenceOf(probing: Probing, { asked, mark }: FamilyView): string {
  const { steps, minutes, usualMinutes, repairs, underComplaint, rule } = probing;
  const of =
    asked.told === undefined
      ? `${countOf(repairs, 'repair', mark)} with a proved failure`
      : `${countOf(repairs, 'repair', mark)} with a proved failure, ${countText(underComplaint, mark)} of them under “${asked.told}”, which weigh most`;
  const took = `${fixedText(minutes, 1, mark)} minutes expected to the reading that shows the fault`;
  const usual =
    usualMinutes === undefined ? '' : `, ${fixedText(usualMinutes, 1, mark)} in the order that the bench uses`;
  const missed = 1 - (steps.at(-1)?.found ?? 1);
  const unseen =
    missed < LEAST_MISSED
      ? ''
      : ` None of these checks shows the fault on ${percentText(missed, mark)} of boards, which are counted with the time of all.`;
  return `${took}${usual}. From ${of}.${unseen} ${RULES[rule]}. Seconds are learned from the log’s own times.`;
}

/** A smaller share of boards is not worth naming. */
const LEAST_MISSED = 0.005;

/** The steps up to the last that finds anything. */
function pointsOf({ steps }: Probing, view: FamilyView): readonly CurveLine[] {
  const last = steps.findLastIndex(({ finds }) => finds > 0);
  let spent = 0;
  return steps.slice(0, last + 1).map(({ point, seconds, finds, found }, at) => {
    spent += seconds / 60;
    return {
      cost: spent,
      share: found,
      label: point,
      name: `${countText(at + 1, view.mark)}. ${point}: ${percentText(found, view.mark)} found`,
      sentence: `${countText(at + 1, view.mark)}. ${point}: ${fixedText(seconds, 0, view.mark)} s; it shows the fault on ${percentText(finds, view.mark)} of boards, by then ${percentText(found, view.mark)} are found.`,
      href: pointReadings(view, point, [{ field: 'stage', oneOf: ['as received'] }]),
    };
  });
}

function tableOf({ steps }: Probing, view: FamilyView): FigureTable {
  const { page, mark } = view;
  return {
    caption: `Checks of ${page.family} as received, in the order to make them`,
    columns: [
      { title: 'check' },
      { title: 'seconds', number: true },
      { title: 'shows the fault', number: true },
      { title: 'found by then', number: true },
    ],
    rows: steps.map(({ point, seconds, finds, found }, at) => [
      {
        text: `${countText(at + 1, mark)}. ${point}`,
        href: pointReadings(view, point, [{ field: 'stage', oneOf: ['as received'] }]),
      },
      numberCell(seconds, 0, mark),
      ...shareCells({ middle: finds, low: found, high: found }, mark).slice(0, 2),
    ]),
  };
}

import { html, nothing } from 'lit';
import { DAY } from '../../domain/day.ts';
import type { RepairsQuery } from '../../session/answers.ts';
import '../charts/control-chart.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import { chanceText, fixedText, percentText } from '../charts/share-text.ts';
import { countOf, countText, dayText } from '../words.ts';
import { countCell, countedIn, shareCells } from './families-cells.ts';
import { selectField } from './families-fields.ts';
import { badReadings, noFailures, repairsHash, type FamilyView } from './families-view.ts';

type OverTime = FamilyView['page']['overTime'][number];

const WEEK = 7 * DAY;
const LEVEL = 0.05;

/** The weekly share of one part between control limits, its trend, and the week of a change. */
export function isItGettingWorse(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const followed = page.overTime.find(({ part }) => part === asked.part) ?? page.overTime[0];
  const few =
    noFailures(view) ?? (followed === undefined ? 'No proved failure has a date: too few to say.' : undefined);
  if (followed === undefined || few !== undefined) {
    return html`<bt-figure-frame
      .question=${'Is it getting worse?'}
      .instead=${few}
      .file=${page.family}
    ></bt-figure-frame>`;
  }
  const { weeks, centre, part } = followed;
  const changed = followed.change !== undefined && followed.change.adjusted <= LEVEL ? followed.change.week : undefined;
  return html`<bt-figure-frame
    .question=${`Is ${part} getting worse in ${page.family}?`}
    .sentence=${`Each dot is a week’s share of repairs with ${part} proved failed: ${countText(followed.failed, mark)} of ${countOf(followed.repairs, 'repair', mark)} in ${countOf(weeks.length, 'week', mark)} with any. Dashed: limits of three standard deviations for that week’s number of repairs; a diamond lies outside.`}
    .table=${tableOf(view, followed)}
    .folded=${weeks.length > 12}
    .file=${`${page.family} ${part}`}
  >
    <div slot="choices" class="choices">
      ${selectField(
        'Part',
        part,
        page.overTime.map((one) => one.part),
        undefined,
        (chosen) => {
          change({ part: chosen });
        },
      )}
    </div>
    <bt-control-chart
      .samples=${weeks.map((week) => ({
        ...week,
        time: week.week,
        name: `${dayText(week.week)}: ${countText(week.failed, mark)} of ${countText(week.repairs, mark)}`,
        sentence: weekSentence(week, part, view),
        href: badReadings(view, [part], [{ field: 'time', from: week.week, to: week.week + WEEK - 1 }]),
        repairs: repairsHash(view, weekQuery(week, part)),
      }))}
      .centre=${centre}
      .change=${changed}
      .decimalMark=${mark}
      .about=${`Weekly share of repairs in which ${part} failed`}
    ></bt-control-chart>
    <p>${trendSentence(followed, view)} ${changeSentence(followed, view)}</p>
    ${weeks.length === 1 ? html`<p>One week alone tells nothing of a change.</p>` : nothing}
  </bt-figure-frame>`;
}

/** The repairs of a week in which the part failed; of a week without one, all. */
function weekQuery({ week, failed }: OverTime['weeks'][number], part: string): RepairsQuery {
  return { from: week, to: week + WEEK - 1, ...(failed > 0 && { failed: [part] }) };
}

function weekSentence(week: OverTime['weeks'][number], part: string, { mark }: FamilyView): string {
  const limits = `limits ${percentText(week.lower, mark)} and ${percentText(week.upper, mark)}`;
  const side = week.outside ? (week.share > week.upper ? 'above them' : 'below them') : 'within them';
  return `Week of ${dayText(week.week)}: ${part} failed in ${countText(week.failed, mark)} of ${countOf(week.repairs, 'repair', mark)}, ${percentText(week.share, mark)}; ${limits}, ${side}.`;
}

function trendSentence({ trend }: OverTime, { mark }: FamilyView): string {
  if (trend === undefined) return 'Fewer than six weeks: too few to say whether it rises or falls.';
  const { test, slope, low, high } = trend;
  const points = (share: number): string => fixedText(share * 100, 1, mark);
  const limits =
    Number.isFinite(low) && Number.isFinite(high)
      ? `, ${points(low)} to ${points(high)} with 95 % confidence`
      : ', limits unknown with so few weeks';
  const steady =
    test.p <= LEVEL ? (test.s > 0 ? 'It rises steadily' : 'It falls steadily') : 'It neither rises nor falls steadily';
  return `${steady} (Mann–Kendall ${chanceText(test.p, mark)}): ${points(slope)} percentage points a week${limits} (Theil–Sen).`;
}

function changeSentence({ change, weeks }: OverTime, { mark }: FamilyView): string {
  if (change === undefined) return weeks.length < 6 ? '' : 'No week of change can be told.';
  const of = ({ count, size }: { readonly count: number; readonly size: number }): string =>
    `${countText(count, mark)} of ${countText(size, mark)}`;
  const told = `the week of ${dayText(change.week)}, ${of(change.before)} before and ${of(change.after)} since, adjusted ${chanceText(change.adjusted, mark)}`;
  return change.adjusted <= LEVEL
    ? `A change began in ${told}.`
    : `No change stands out; the likeliest began in ${told}.`;
}

function tableOf(view: FamilyView, { part, weeks }: OverTime): FigureTable {
  const { mark } = view;
  return {
    caption: `Weeks with repairs, and ${part} proved failed`,
    columns: [
      { title: 'week of' },
      ...['repairs', 'failed', 'share', 'lower limit', 'upper limit'].map((title) => ({ title, number: true })),
      { title: 'against the limits' },
    ],
    rows: weeks.map((one) => [
      dayText(one.week),
      countCell(one.repairs, mark),
      countedIn(one.failed, repairsHash(view, weekQuery(one, part)), mark),
      ...shareCells({ middle: one.share, low: one.lower, high: one.upper }, mark),
      one.outside ? 'outside' : 'within',
    ]),
  };
}

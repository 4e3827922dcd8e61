import { css, html, LitElement, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Filter, MetersOverview } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { chanceText, fixedText } from '../charts/share-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { hashOf, readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, dayText, listText } from '../words.ts';
import { countCell, numberCell } from './families-cells.ts';
import { answerFault, answerProgress, longAnswerStyles } from './long-answer.ts';

type Period = MetersOverview['periods'][number];

/** What the readings of all families say of the meters that took them: which reads high or low, since when, and what that may have turned. */
@customElement('bt-families-meters')
export class FamiliesMeters extends LitElement {
  static override styles = [
    shared,
    longAnswerStyles,
    css`
      h1 {
        margin-block-end: 0.75rem;
      }
    `,
  ];

  private readonly meters = new AnswerController<MetersOverview>(this, () => {
    const { session } = this;
    return (
      session && {
        key: String(session.state.revision),
        ask: (signal, report) => session.ask('metersOverview', [], signal, report),
      }
    );
  });

  @property({ attribute: false }) session?: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private renderMeters(overview: MetersOverview) {
    const mark = this.session?.state.decimalMark ?? '.';
    const { periods, tooFew, onlyDifference, test } = overview;
    const few = tooFew.map(({ meter, repairs }) => `${meterName(meter)} with ${countOf(repairs, 'repair', mark)}`);
    return html`<bt-figure-frame
      .question=${'Which meter reads high or low?'}
      .sentence=${'How much each meter reads too high, in percent, by live voltages at the same points across families; a dot is the median over repairs, the line its 95 % limits. The meters’ middle is taken as right, as most meters mostly are.'}
      .instead=${periods.length === 0 ? 'No meter has live voltages of ten repairs or more: too few to say.' : undefined}
      .table=${periods.length === 0 ? undefined : tableOf(overview, mark)}
      .file=${'Meters'}
    >
      <bt-interval-rows
        .lines=${periods.map((period) => lineOf(period, periods, mark))}
        .domain=${DOMAIN}
        .nameRoom=${168}
        .labelRoom=${190}
        .tickText=${(percent: number) => `${fixedText(percent, Number.isInteger(percent) ? 0 : 1, mark)}\u00a0%`}
        .decimalMark=${mark}
        .about=${'Offset of each meter'}
      ></bt-interval-rows>
      <div slot="words">
        ${test === undefined ? nothing : html`<p>${test.p <= LEVEL ? 'The meters read differently' : 'No difference between the meters can be told'} (Kruskal–Wallis ${chanceText(test.p, mark)}).</p>`}
        ${onlyDifference && periods.length > 0 ? html`<p>With fewer than three meters or periods only the difference between them is known, and not which is off: it is split evenly.</p>` : nothing}
        ${periods.map((period) => wordsOf(period, periods, mark))}
        ${few.length === 0 ? nothing : html`<p>Too few repairs to say: ${listText(few)}.</p>`}
      </div>
    </bt-figure-frame>`;
  }

  override render() {
    const { answer } = this.meters;
    return html`<p><a href=${hashOf('families')}>All families</a></p>
      <h1>Meters</h1>
      ${
        answer.status === 'failed'
          ? answerFault(answer.reason, this.meters, 'Compare again')
          : answer.value === undefined
            ? html`<p class="quiet" role="status">Comparing meters.</p>
                ${answerProgress(this.meters, 'Comparing meters')}`
            : this.renderMeters(answer.value)
      }`;
  }
}

const LEVEL = 0.05;
/** Percent that are always in view, so that a small offset looks small. */
const DOMAIN: readonly [number, number] = [-0.5, 0.5];

function meterName(meter: string): string {
  return meter === '' ? 'a meter that is not named' : meter;
}

function drifted({ meter, since }: Period, periods: readonly Period[]): boolean {
  return periods.some((other) => other.meter === meter && other.since < since);
}

function percentOf(percent: number, mark: DecimalMark): string {
  return `${fixedText(percent, 2, mark)}\u00a0%`;
}

function limitsOf({ low, high }: Period, mark: DecimalMark): string {
  return `${fixedText(low, 2, mark)} to ${percentOf(high, mark)}`;
}

/** Which side a meter is on, where its limits leave no doubt. */
function sideOf({ low, high }: Period): 'high' | 'low' | undefined {
  return low > 0 ? 'high' : high < 0 ? 'low' : undefined;
}

/** The readings from which a meter's offset is told. */
function readingsOf({ meter, since, until }: Period, more: readonly Filter[] = []): string {
  return readingsHash({
    filters: [
      { field: 'meter', oneOf: [meter] },
      { field: 'stage', oneOf: ['live'] },
      { field: 'mode', oneOf: ['DC volts', 'AC volts'] },
      { field: 'time', from: since, to: until },
      ...more,
    ],
  });
}

/** More repairs than this are not named one by one in an address. */
const MOST_NAMED = 100;

/** The same in the repairs in which a verdict may have turned, where they are few enough to name. */
function turnedReadings(period: Period): string {
  const { turnedIn } = period;
  return readingsOf(period, turnedIn.length > MOST_NAMED ? [] : [{ field: 'repair', oneOf: turnedIn }]);
}

function lineOf(period: Period, periods: readonly Period[], mark: DecimalMark): IntervalLine {
  const { meter, since, until, repairs, percent, low, high } = period;
  const side = sideOf(period);
  const title = drifted(period, periods) ? `${meterName(meter)} from ${dayText(since)}` : meterName(meter);
  return {
    sentence: `${meterName(meter)}, ${dayText(since)} to ${dayText(until)}: ${percentOf(percent, mark)} too high, ${limitsOf(period, mark)} with 95 % confidence, from ${countOf(repairs, 'repair', mark)}.`,
    href: readingsOf(period),
    title,
    label: `${percentOf(percent, mark)}${side === undefined ? '' : side === 'high' ? ' ▲ reads high' : ' ▼ reads low'}`,
    series: [{ low, high, middle: percent }],
  };
}

/** What is to be done about a meter that is off; nothing where no offset can be told. */
function wordsOf(period: Period, periods: readonly Period[], mark: DecimalMark) {
  const side = sideOf(period);
  if (side === undefined) return nothing;
  const { meter, percent, since, turned } = period;
  const onset = drifted(period, periods) ? `, since about ${dayText(since)}` : '';
  return html`<p>
    <b>${meterName(meter)}</b> reads ${percentOf(Math.abs(percent), mark)} too ${side}${onset}
    (${limitsOf(period, mark)}).
    ${
      turned === 0
        ? 'No reading of it is so near a limit that this may have turned its verdict.'
        : html`<a href=${turnedReadings(period)}>${countOf(turned, 'reading', mark)}</a> of it
            ${turned === 1 ? 'lies' : 'lie'} so near a limit that this may have turned
            ${turned === 1 ? 'its verdict' : 'their verdicts'}: measure again with another meter.`
    }
  </p>`;
}

function tableOf({ periods }: MetersOverview, mark: DecimalMark): FigureTable {
  return {
    caption: 'Offset in percent, and readings whose verdict it may have turned',
    columns: [
      { title: 'meter' },
      { title: 'since' },
      { title: 'until' },
      ...['repairs', 'offset', 'from', 'to', 'may have turned'].map((title) => ({ title, number: true })),
    ],
    rows: periods.map((period) => [
      { text: meterName(period.meter), href: readingsOf(period) },
      dayText(period.since),
      dayText(period.until),
      countCell(period.repairs, mark),
      ...[period.percent, period.low, period.high].map((percent) => numberCell(percent, 2, mark)),
      { ...countCell(period.turned, mark), ...(period.turned > 0 && { href: turnedReadings(period) }) },
    ]),
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-families-meters': FamiliesMeters;
  }
}

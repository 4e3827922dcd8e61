import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import type { GoBackAnswer, RepairLine, RepairsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';
import { hashOf, readingsHash, repairFormHash, shiftSheetHash, type Route } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, dayText } from '../words.ts';
import { wallTime } from './repair-numbers.ts';
import { goBackLack } from './repair-words.ts';
import {
  FIRST_ORDER,
  REPAIR_COLUMNS,
  daysOnBench,
  orderRepairs,
  parseOrder,
  turnedOrder,
  writeOrder,
} from './repairs-order.ts';
import type { RepairColumn, RepairOrder } from './repairs-order.ts';
import { readRepairsQuery, repairsPhrase, writeRepairsQuery } from './repairs-query.ts';
import './repair-form.ts';
import './sheet-shift.ts';

const PAGE = 100;
const COUNTS: readonly RepairColumn[] = ['days', 'readings', 'out of band'];

/** More repairs than this are not named one by one in an address. */
const MOST_NAMED = 100;

interface View {
  /** What the list is narrowed to. */
  readonly query?: RepairsQuery;
  readonly text: string;
  readonly order: RepairOrder;
  /** The first one shown. */
  readonly from: number;
}

/** The list of repairs: narrowed to those that a mark of a chart counts, found by words, ordered by a column, a page at a time. All of it stands in the address. */
@customElement('bt-repairs-place')
export class RepairsPlace extends LitElement {
  static override styles = [
    shared,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1.5rem;
      }

      .find {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        gap: 0.25rem 1rem;
        margin: 0.5rem 0 0.75rem;
      }

      .find p {
        margin: 0;
      }

      .chosen a {
        margin-inline-start: 1rem;
      }

      input {
        width: 20rem;
      }

      th button {
        min-height: 1.5rem;
        padding: 0;
        border: 0;
        background: none;
        color: inherit;
      }

      th[aria-sort$='ending'] button {
        color: var(--ink);
        font-weight: 600;
      }

      td.comeback a {
        white-space: nowrap;
      }

      td.comeback span {
        display: block;
      }

      td.go-back {
        min-width: 10rem;
      }

      td.complaint {
        min-width: 11rem;
      }
    `,
  ];

  private readonly lines = new AnswerController<readonly RepairLine[]>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.session.ask('repairs', [], signal),
    keepsLast: true,
  }));

  /** The ids of those that the address narrows the list to, where it does. */
  private readonly chosen = new AnswerController<ReadonlySet<string>>(this, () => {
    const { query } = this.view;
    return (
      query && {
        key: `${this.session.state.revision} ${writeRepairsQuery(query).toString()}`,
        ask: async (signal) => new Set(await this.session.ask('repairsWhere', [query], signal)),
      }
    );
  });

  /** Whether those that the page shows may go back. */
  private readonly goBack = new AnswerController<ReadonlyMap<string, GoBackAnswer>>(this, () => {
    const { revision, decimalMark } = this.session.state;
    const ids = this.listed?.items.map(({ repair }) => repair.id) ?? [];
    if (ids.length === 0) return undefined;
    return {
      key: JSON.stringify([revision, decimalMark, ids]),
      ask: async (signal) => {
        const answers = await this.session.ask('goBackAnswers', [ids, decimalMark], signal);
        return new Map(answers.map((one) => [one.repair, one]));
      },
      keepsLast: true,
    };
  });

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) route!: Route;
  /** The day that it is, in local wall milliseconds counted as if UTC. */
  @property({ attribute: false }) today = wallTime(new Date());

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get view(): View {
    const parameters = new URLSearchParams(this.route.query);
    const from = Number(parameters.get('from') ?? 0);
    const query = readRepairsQuery(parameters);
    return {
      ...(query && { query }),
      text: parameters.get('text') ?? '',
      order: parseOrder(parameters.get('sort')),
      from: Number.isFinite(from) ? from : 0,
    };
  }

  /** What the list shows by now; undefined until the repairs are known. */
  private get listed() {
    const all = valueOf(this.lines.answer);
    if (all === undefined) return undefined;
    const { query, text, order, from } = this.view;
    const chosen = query && valueOf(this.chosen.answer);
    if (query !== undefined && chosen === undefined) return undefined;
    const lines = chosen === undefined ? all : all.filter(({ repair }) => chosen.has(repair.id));
    const found = orderRepairs(lines, text, order, this.today);
    return { all, lines, found, ...pageOf(found, from, PAGE) };
  }

  /** Shows another view in place of the present one, by its address. */
  private show(changes: { readonly text?: string; readonly order?: RepairOrder; readonly from?: number }): void {
    const { query, text, order, from } = { ...this.view, from: 0, ...changes };
    const parameters = writeRepairsQuery(query ?? {});
    if (text !== '') parameters.set('text', text);
    if (writeOrder(order) !== writeOrder(FIRST_ORDER)) parameters.set('sort', writeOrder(order));
    if (from > 0) parameters.set('from', String(from));
    location.replace(hashOf('repairs', undefined, parameters));
  }

  private find(event: Event): void {
    this.show({ text: (event.target as HTMLInputElement).value });
  }

  private turn(event: CustomEvent<number>): void {
    this.show({ from: event.detail });
  }

  private renderHead(column: RepairColumn, order: RepairOrder) {
    const number = COUNTS.includes(column) ? 'number' : '';
    const press = (): void => {
      this.show({ order: turnedOrder(order, column) });
    };
    const sorted = column === order.column;
    const direction = order.descending ? 'descending' : 'ascending';
    return html`<th scope="col" class=${number} aria-sort=${sorted ? direction : 'none'}>
      <button type="button" @click=${press}>${column}${sorted ? (order.descending ? ' ↓' : ' ↑') : ''}</button>
    </th>`;
  }

  /** Whether the board may go back, by the very answer that its page gives, and what it lacks. */
  private renderGoBack({ repair }: RepairLine) {
    const { answer } = this.goBack;
    if (answer.status === 'failed') return html`<span class="wrong">${answer.reason}</span>`;
    const own = answer.value?.get(repair.id);
    if (own === undefined) return nothing;
    return own.mayGoBack ? html`✓ may go back` : html`<span class="quiet">· not yet: ${goBackLack(own.goBack)}</span>`;
  }

  private renderLine(line: RepairLine, cameBack: readonly string[]) {
    const { repair, readings, outOfBand, listed } = line;
    const { comebackOf } = repair;
    const { decimalMark } = this.session.state;
    const days = daysOnBench(repair, this.today);
    return html`<tr>
      <th scope="row"><a href=${hashOf('repairs', repair.id)}>${repair.id}</a></th>
      <td>${repair.family}</td>
      <td class="complaint wraps">${listed ? repair.complaint : html`<span class="quiet">not in the table of repairs</span>`}</td>
      <td class="figures">${dayText(repair.received)}</td>
      <td class="number">${Number.isNaN(days) ? '' : countText(days, decimalMark)}</td>
      <td>${repair.outcome}</td>
      <td class="wraps comeback">${comebackOf === undefined ? nothing : html`<span>of&nbsp;<a href=${hashOf('repairs', comebackOf)}>${comebackOf}</a></span>`}
        ${cameBack.map((id) => html`<span>came back as <a href=${hashOf('repairs', id)}>${id}</a></span>`)}</td>
      <td class="number">${countText(readings, decimalMark)}</td>
      <td class="number">${outOfBand === 0 ? html`<span class="quiet">0</span>` : html`<span class="wrong">${countText(outOfBand, decimalMark)}</span>`}</td>
      <td class="wraps">${repair.replaced.join(', ')}</td>
      <td class="wraps go-back">${this.renderGoBack(line)}</td>
    </tr>`; // prettier-ignore
  }

  /** What the address narrows the list to, in words, with ways on. */
  private renderChosen(query: RepairsQuery, chosen: readonly RepairLine[]) {
    const ids = chosen.map(({ repair }) => repair.id);
    const readings = readingsHash({ filters: [{ field: 'repair', oneOf: ids }], sort: [] });
    return html`<p class="chosen" role="status">
      ${repairsPhrase(query, ids.length, this.session.state.decimalMark)}.
      ${ids.length > 0 && ids.length <= MOST_NAMED ? html`<a href=${readings}>Their readings</a>` : nothing}
      <a href=${hashOf('repairs')}>All repairs</a>
    </p>`;
  }

  private renderList({ all, lines, found, items, first }: NonNullable<typeof this.listed>) {
    const { decimalMark } = this.session.state;
    const { query, text, order } = this.view;
    const comebacks = comebacksOf(all);
    const outOfBand = found.filter((line) => line.outOfBand > 0).length;
    return html`
      ${query === undefined ? nothing : this.renderChosen(query, lines)}
      <div class="find" role="search">
        <label for="text">Find</label>
        <input
          id="text"
          type="search"
          placeholder="family, complaint, part, outcome"
          .value=${text}
          @input=${this.find}
        />
        <p role="status" class="quiet">
          ${text === '' ? '' : `${countText(found.length, decimalMark)} of `}${countOf(lines.length, 'repair', decimalMark)},
          ${countText(outOfBand, decimalMark)} with readings out of band
        </p>
      </div>
      ${
        found.length === 0
          ? html`<p>${text === '' ? 'There is no such repair.' : 'No repair holds all of these words.'}</p>`
          : html`<div class="sideways">
              <table aria-label="Repairs">
                <thead>
                  <tr>
                    ${REPAIR_COLUMNS.map((column) => this.renderHead(column, order))}
                    <th scope="col">may it go back?</th>
                  </tr>
                </thead>
                <tbody>
                  ${items.map((line) => this.renderLine(line, comebacks.get(line.repair.id) ?? []))}
                </tbody>
              </table>
            </div>`
      }
      <bt-paging
        .total=${found.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'repairs'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turn}
      ></bt-paging>
    `;
  }

  private renderAnswer() {
    const { answer } = this.lines;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet">Opening the repairs.</p>`;
    if (answer.value.length === 0) {
      return html`<p>
        No repair is known yet. <a href=${hashOf('shift')}>Bring in</a> a log, whose readings name their repairs, or a
        table of repairs.
      </p>`;
    }
    const { answer: chosen } = this.chosen;
    if (this.view.query !== undefined && chosen.status === 'failed') return html`<p class="wrong">${chosen.reason}</p>`;
    const { listed } = this;
    return listed === undefined ? html`<p class="quiet">Choosing the repairs.</p>` : this.renderList(listed);
  }

  override render() {
    const parameters = new URLSearchParams(this.route.query);
    const sheet = parameters.get('sheet');
    if (sheet !== null) return html`<bt-sheet-shift .session=${this.session} .day=${sheet}></bt-sheet-shift>`;
    return html`<div class="head">
        <h1>Repairs</h1>
        <a href=${shiftSheetHash()}>Shift summary to print</a>
        <a href=${repairFormHash()}>Add a repair</a>
      </div>
      ${parameters.has('add') ? html`<bt-repair-form .session=${this.session}></bt-repair-form>` : nothing}
      ${this.renderAnswer()}`;
  }
}

/** The repairs as which boards came back, by the repair before. */
function comebacksOf(lines: readonly RepairLine[]): ReadonlyMap<string, readonly string[]> {
  const comebacks = new Map<string, string[]>();
  for (const { repair } of lines) {
    if (repair.comebackOf === undefined) continue;
    comebacks.set(repair.comebackOf, [...(comebacks.get(repair.comebackOf) ?? []), repair.id]);
  }
  return comebacks;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repairs-place': RepairsPlace;
  }
}

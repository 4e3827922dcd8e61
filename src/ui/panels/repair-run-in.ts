import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { formatComputed, joinQuantity, type DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { Session } from '../../session/session.ts';
import '../charts/trace-figure.ts';
import { traceSentence } from '../charts/trace-text.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText, durationText } from '../words.ts';
import type { RunInLine } from './repair-answers.ts';

type Summary = NonNullable<RunInLine['summary']>;

/** The run-ins of one repair: each rail over time with its numbers, beside the family's other run-ins of it. */
@customElement('bt-repair-run-in')
export class RepairRunIn extends LitElement {
  static override styles = [
    shared,
    css`
      .beside {
        display: grid;
        grid-template-columns: minmax(20rem, 1fr) auto;
        gap: 0.5rem 2rem;
        margin-bottom: 1.5rem;
      }

      @media (max-width: 60rem) {
        .beside {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ];

  private readonly runIns = new AnswerController<readonly RunInLine[]>(this, () => ({
    key: `${this.session.state.revision} ${this.repair}`,
    ask: (signal) => this.session.ask('runIns', [this.repair], signal),
    keepsLast: true,
  }));

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) repair = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  /** A value with no digit below the last one logged, or, for what is averaged over many entries, one digit more. */
  private text({ mode, lastDigit }: RunInLine, value: number, more = 0): string {
    return joinQuantity(formatComputed(value, MODE_UNITS[mode], lastDigit - more, this.mark));
  }

  private drift(line: RunInLine, { drift }: Summary): string {
    if (drift === undefined) return 'too few entries';
    const [slope, low, high] = [drift.perHour, drift.low, drift.high].map((value) => this.text(line, value, 1));
    if (!Number.isFinite(drift.low)) return `${slope ?? ''} an hour; too few entries for limits`;
    return `${slope ?? ''} an hour (${low ?? ''} to ${high ?? ''})`;
  }

  private numbers(line: RunInLine, summary: Summary): readonly (readonly [string, string])[] {
    const { settledAt, settling, minimum, maximum, longestOutside, dropOuts, gaps, blanks, ripple } = summary;
    const time = (seconds: number): string => (seconds === 0 ? 'at once' : durationText(seconds, this.mark));
    const outside = longestOutside === undefined ? 'no band' : longestOutside === 0 ? 'none' : durationText(longestOutside, this.mark); // prettier-ignore
    return [
      ['settled at', this.text(line, settledAt)],
      ['within 1 % of it', settling === 0 ? time(settling) : `after ${time(settling)}`],
      ['lowest, highest', `${this.text(line, minimum)}, ${this.text(line, maximum)}`],
      ['longest time outside', outside],
      ['drop-outs', countText(dropOuts, this.mark)],
      ['drift', this.drift(line, summary)],
      ['ripple of the log', Number.isNaN(ripple) ? 'too few entries' : this.text(line, ripple, 1)],
      ['gaps, blanks', `${countText(gaps, this.mark)}, ${countText(blanks, this.mark)}`],
    ];
  }

  private renderOthers(line: RunInLine) {
    const { others, point } = line;
    if (others.length === 0) return html`<p class="quiet">No other board of the family has a run-in of ${point}.</p>`;
    return html`<details>
      <summary>${countOf(others.length, 'other run-in', this.mark)} of ${point} in the family</summary>
      <table class="narrow" aria-label="Other run-ins of ${point}">
        <thead>
          <tr>
            <th scope="col">repair</th>
            <th scope="col" class="number">settled at</th>
            <th scope="col" class="number">drift an hour</th>
            <th scope="col" class="number">ripple</th>
            <th scope="col" class="number">drop-outs</th>
          </tr>
        </thead>
        <tbody>
          ${others.map(
            ({ repair, summary }) =>
              html`<tr>
                <th scope="row"><a href=${hashOf('repairs', repair)}>${repair}</a></th>
                <td class="number">${this.text(line, summary.settledAt)}</td>
                <td class="number">${summary.drift === undefined ? '' : this.text(line, summary.drift.perHour, 1)}</td>
                <td class="number">${Number.isNaN(summary.ripple) ? '' : this.text(line, summary.ripple, 1)}</td>
                <td class="number">${countText(summary.dropOuts, this.mark)}</td>
              </tr>`,
          )}
        </tbody>
      </table>
    </details>`;
  }

  private renderLine(line: RunInLine) {
    const { summary, point, backwards } = line;
    const isPieced = summary !== undefined && summary.pieces > 0 && summary.pieces < summary.entries - summary.blanks;
    if (summary === undefined) return html`<p>${traceSentence(line, this.mark)}</p>`;
    return html`<p>
        ${traceSentence(line, this.mark)}
        ${line.limits === undefined ? 'No band says what it should read.' : 'The shaded part is its band.'}
      </p>
      ${
        backwards === 0
          ? nothing
          : html`<p>
              <span class="wrong">▲</span> Its clock jumped back
              ${backwards === 1 ? 'once' : `${countText(backwards, this.mark)} times`}: the entries are drawn in the
              order of their times.
            </p>`
      }
      <div class="beside">
        <bt-trace-figure .session=${this.session} .repair=${this.repair} .line=${line}></bt-trace-figure>
        <table class="narrow" aria-label="Numbers of the run-in of ${point}">
          <tbody>
            ${this.numbers(line, summary).map(
              ([name, value]) =>
                html`<tr>
                  <th scope="row">${name}</th>
                  <td class="number">${value}</td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>
      <p class="quiet">
        It has settled where it first stays within 1 % for five minutes, drop-outs apart. The drift is the median slope
        of all pairs (Theil–Sen) once
        settled${isPieced ? `, of ${countText(summary.pieces, this.mark)} pieces of equal count by their medians` : ''},
        with its 95 % limits; the ripple is what is left beside it.
      </p>
      ${this.renderOthers(line)}`;
  }

  override render() {
    const { answer } = this.runIns;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined || answer.value.length === 0) return nothing;
    return html`<h2>Does it keep working?</h2>
      ${answer.value.map((line) => this.renderLine(line))}`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-run-in': RepairRunIn;
  }
}

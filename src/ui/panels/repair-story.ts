import { LitElement, css, html, nothing } from 'lit';
import { customElement, property } from 'lit/decorators.js';
import { MODE_UNITS, STAGES } from '../../domain/reading.ts';
import type { PartEvidence, ReadingRow, RepairLine, RepairStory as Story } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText } from '../band-text.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { readingText } from '../grid/reading-text.ts';
import { hashOf, readingsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { verdictText } from '../verdict-text.ts';
import { countOf, countText, dayText, listText, minuteText } from '../words.ts';

/** One board's story: what came, what was measured at each stage, what that proves of its parts, and how it ended. */
@customElement('bt-repair-story')
export class RepairStory extends LitElement {
  static override styles = [
    shared,
    tapeStyles,
    css`
      section {
        margin: 1.5rem 0;
      }

      .facts {
        display: flex;
        flex-wrap: wrap;
        gap: 0.25rem 2rem;
        margin: 0.5rem 0 1rem;
      }

      .facts div {
        display: flex;
        gap: 0.5rem;
      }

      dt {
        color: var(--quiet);
      }

      dd {
        margin: 0;
      }

      .fraction {
        display: inline-block;
        width: 4ch;
        text-align: start;
      }

      .unit {
        display: inline-block;
        width: 2rem;
        padding-inline-start: 0.375rem;
        text-align: start;
      }

      th[scope='rowgroup'] {
        padding-top: 1rem;
        border-bottom-color: var(--quiet);
      }

      .against {
        min-width: 10rem;
        vertical-align: middle;
      }

      .sign {
        display: inline-block;
        width: 1.25rem;
      }
    `,
  ];

  private readonly story = new AnswerController<{ readonly found: Story | undefined }>(this, () => ({
    key: `${this.session.state.revision} ${this.repair}`,
    ask: async (signal) => ({ found: await this.session.ask('repair', [this.repair], signal) }),
  }));

  @property({ attribute: false }) session!: Session;
  /** Id of the repair. */
  @property({ attribute: false }) repair!: string;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private renderFacts({ line, comebacks }: Story) {
    const { repair } = line;
    const facts: readonly (readonly [string, unknown])[] = [
      ['family', html`<a href=${hashOf('families', repair.family)}>${repair.family}</a>`],
      ['complaint', repair.complaint],
      ['received', dayText(repair.received)],
      ['returned', dayText(repair.returned)],
      ['outcome', repair.outcome],
      ['replaced', repair.replaced.join(', ')],
      ['came back from', repair.comebackOf === undefined ? '' : repairLink(repair.comebackOf)],
      ['came back as', comebacks.length === 0 ? '' : comebacks.map((id) => html`${repairLink(id)} `)],
    ];
    return html`<dl class="facts">
      ${facts.map(([name, value]) => (value === '' ? nothing : html`<div><dt>${name}</dt><dd>${value}</dd></div>`))}
    </dl>`; // prettier-ignore
  }

  private renderReadiness({ line, findings }: Story) {
    return html`<section aria-labelledby="ready">
      <h2 id="ready">Is it ready to go back?</h2>
      ${this.renderLive(line)}
      ${
        findings.length === 0
          ? nothing
          : html`<ul>
              ${findings.map((finding) => html`<li>${finding}</li>`)}
            </ul>`
      }
    </section>`;
  }

  private renderLive({ liveReadings, liveOutOfBand }: RepairLine) {
    const { decimalMark } = this.session.state;
    if (liveReadings === 0)
      return html`<p>No live reading was taken after the last work on it, so nothing shows that it works.</p>`;
    const taken = countOf(liveReadings, 'live reading', decimalMark);
    if (liveOutOfBand === 0) return html`<p>✓ ${taken} after the last work on it, and none is out of band.</p>`;
    return html`<p>
      <span class="wrong">▲ ${countText(liveOutOfBand, decimalMark)} of ${taken}</span> after the last work on it
      ${liveOutOfBand === 1 ? 'is' : 'are'} out of band.
    </p>`;
  }

  private renderReading(row: ReadingRow) {
    const { decimalMark } = this.session.state;
    const { whole, fraction, unit } = readingText(row, decimalMark);
    const { sign, word, wrong } = verdictText(row.verdict, row.word);
    return html`<tr>
      <td class="figures">${minuteText(row.time)}</td>
      <th scope="row">${row.point}${row.specimen === 'board' ? '' : html` <span class="quiet">(new part)</span>`}</th>
      <td>${row.mode}</td>
      <td class="number figures">${whole}<span class="fraction">${fraction}</span><span class="unit">${unit}</span></td>
      <td class="against">${tape(row)}</td>
      <td class=${wrong ? 'wrong' : ''}><span class="sign">${sign}</span>${word}</td>
      <td class="quiet">${row.meter}</td>
      <td class="quiet wraps">${row.band === undefined ? '' : expectationText(row.band.expects, MODE_UNITS[row.mode], decimalMark)}</td>
    </tr>`; // prettier-ignore
  }

  private renderReadings({ line, readings }: Story) {
    const { decimalMark } = this.session.state;
    if (readings.length === 0) return html`<p>No reading of this repair has been brought in.</p>`;
    const all = readingsHash({ filters: [{ field: 'repair', oneOf: [line.repair.id] }] });
    return html`<section aria-labelledby="readings">
      <h2 id="readings">What was measured, stage by stage?</h2>
      <p class="quiet">
        ${countOf(readings.length, 'reading', decimalMark)}, ${countText(line.outOfBand, decimalMark)} out of band, in the order of
        their times. <a href=${all}>See them in the grid</a>
      </p>
      <div class="sideways">
        <table aria-labelledby="readings">
          <thead>
            <tr>
              <th scope="col">time</th>
              <th scope="col">point</th>
              <th scope="col">mode</th>
              <th scope="col" class="number">reading</th>
              <th scope="col">against its band</th>
              <th scope="col">verdict</th>
              <th scope="col">meter</th>
              <th scope="col">should read</th>
            </tr>
          </thead>
          ${STAGES.map((stage) => this.renderStage(stage, readings.filter((row) => row.stage === stage)))}
        </table>
      </div>
    </section>`; // prettier-ignore
  }

  private renderStage(stage: string, rows: readonly ReadingRow[]) {
    if (rows.length === 0) return nothing;
    return html`<tbody>
      <tr>
        <th scope="rowgroup" colspan="8">${stage}</th>
      </tr>
      ${rows.map((row) => this.renderReading(row))}
    </tbody>`;
  }

  private renderPart({ part, finding, word, reason, replaced }: PartEvidence) {
    return html`<tr>
      <th scope="row">${part}</th>
      <td class=${finding === 'failed' ? 'wrong' : ''}>
        ${finding}${word === undefined || word === finding ? '' : `, ${word}`}
      </td>
      <td>${replaced ? 'replaced' : ''}</td>
      <td class="wraps">${reason}</td>
    </tr>`;
  }

  private renderParts({ parts }: Story) {
    if (parts.length === 0) return nothing;
    // Parts that are good and were left alone need no line each.
    const plain = parts.filter(({ finding, replaced }) => finding === 'good' && !replaced);
    const told = parts.filter((part) => !plain.includes(part));
    return html`<section aria-labelledby="parts">
      <h2 id="parts">What do the readings prove of its parts?</h2>
      <p class="quiet">
        In circuit, parts across the same two nodes mask each other, so a bad reading there may prove nothing until one
        is out. Replaced is told apart from failed.
      </p>
      ${told.length === 0 ? nothing : this.renderPartTable(told)}
      ${plain.length === 0 ? nothing : html`<p>✓ Measured good: ${listText(plain.map(({ part }) => part))}.</p>`}
    </section>`;
  }

  private renderPartTable(parts: readonly PartEvidence[]) {
    return html`<div class="sideways">
      <table aria-labelledby="parts">
        <thead>
          <tr>
            <th scope="col">part</th>
            <th scope="col">finding</th>
            <th scope="col">work</th>
            <th scope="col">because</th>
          </tr>
        </thead>
        <tbody>
          ${parts.map((part) => this.renderPart(part))}
        </tbody>
      </table>
    </div>`;
  }

  private renderAnswer() {
    const { answer } = this.story;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet">Opening the repair.</p>`;
    const story = answer.value.found;
    if (story === undefined) {
      return html`<p>No repair of this name is on the bench. <a href=${hashOf('repairs')}>See all repairs</a></p>`;
    }
    return html`${this.renderFacts(story)} ${this.renderReadiness(story)} ${this.renderParts(story)}
    ${this.renderReadings(story)}`;
  }

  override render() {
    return html`<h1>${this.repair}</h1>
      ${this.renderAnswer()}`;
  }
}

function repairLink(id: string) {
  return html`<a href=${hashOf('repairs', id)}>${id}</a>`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-story': RepairStory;
  }
}

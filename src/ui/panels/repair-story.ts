import { LitElement, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { roleOf } from '../../domain/family.ts';
import { formatShown, type DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS, STAGES, isPowered } from '../../domain/reading.ts';
import type { PartEvidence, ReadingRow, RepairStory as Story } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText } from '../band-text.ts';
import '../charts/masking-figure.ts';
import { tapeStyles } from '../charts/tolerance-tape.styles.ts';
import { tape } from '../charts/tolerance-tape.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { readingText } from '../grid/reading-text.ts';
import { boardSheetHash, hashOf, readingsHash, repairFormHash } from '../route.ts';
import { factsStyles } from '../styles/facts.styles.ts';
import { shared } from '../styles/shared.styles.ts';
import { verdictText } from '../verdict-text.ts';
import { countOf, countText, dayText, listText, minuteText } from '../words.ts';
import './history.ts';
import type { RepairDecision } from './repair-answers.ts';
import { besideTable } from './repair-beside.ts';
import './repair-discharge.ts';
import './repair-form.ts';
import type { LineOverruled } from './repair-go-back.ts';
import './repair-go-back.ts';
import './repair-next.ts';
import './repair-run-in.ts';
import './sheet-board.ts';
import { storyStyles } from './repair-story.styles.ts';

/** One board's story: what came, what was measured at each stage, what that proves of its parts, and how it ended. */
@customElement('bt-repair-story')
export class RepairStory extends LitElement {
  static override styles = [shared, factsStyles, tapeStyles, storyStyles];

  private readonly story = new AnswerController<{ readonly found: Story | undefined }>(this, () => ({
    key: this.key,
    ask: async (signal) => ({ found: await this.session.ask('repair', [this.repair, this.mark], signal) }),
    keepsLast: true,
  }));

  private readonly decision = new AnswerController<RepairDecision | undefined>(this, () => ({
    key: this.key,
    ask: (signal) => this.session.ask('decision', [this.repair, this.mark], signal),
    keepsLast: true,
  }));

  /** Counts what was changed here, since each change has to be asked for anew. */
  private readonly making = new ChangeController(this);

  @state() private changes = 0;
  /** Why the last change was refused, as a sentence. */

  @property({ attribute: false }) session!: Session;
  /** Id of the repair. */
  @property({ attribute: false }) repair!: string;
  /** What of it the address asks for: `sheet`, `edit`, or, where undefined, all of it. */
  @property({ attribute: false }) view: string | undefined;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  private get mark(): DecimalMark {
    return this.session.state.decimalMark;
  }

  /** Whether nothing on the bench names the repair. */
  private get isUnknown(): boolean {
    const { answer } = this.story;
    return answer.status !== 'failed' && answer.value !== undefined && answer.value.found === undefined;
  }

  private get key(): string {
    return `${this.session.state.revision} ${this.changes} ${this.mark} ${this.repair}`;
  }

  private async overrule({ detail: { rule, reason } }: CustomEvent<LineOverruled>): Promise<void> {
    await this.making.make(() => this.session.ask('overruleLine', [this.repair, rule, reason]));
  }

  private readonly askAgain = (): void => {
    this.changes += 1;
  };

  private renderForm({ line }: Story) {
    return html`<bt-repair-form
      .session=${this.session}
      .repair=${line.repair}
      @repair-kept=${this.askAgain}
    ></bt-repair-form>`;
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
      ['bench', repair.bench ?? ''],
      ['came back as', comebacks.length === 0 ? '' : comebacks.map((id) => html`${repairLink(id)} `)],
    ];
    return html`<dl class="facts">
      ${facts.map(([name, value]) => (value === '' ? nothing : html`<div><dt>${name}</dt><dd>${value}</dd></div>`))}
    </dl>`; // prettier-ignore
  }

  private renderDecision() {
    const { answer } = this.decision;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet">Holding the readings against what must hold.</p>`;
    return html`${this.making.faultLine()}
      <section>
        <bt-repair-go-back
          .decision=${answer.value}
          .decimalMark=${this.mark}
          @line-overruled=${this.overrule}
        ></bt-repair-go-back>
      </section>`;
  }

  private renderFindings({ findings }: Story) {
    const oddities = this.decision.answer.status === 'failed' ? [] : (this.decision.answer.value?.oddities ?? []);
    if (findings.length + oddities.length === 0) return nothing;
    return html`<section aria-labelledby="findings">
      <h2 id="findings">What stands out?</h2>
      <ul>
        ${findings.map((finding) => html`<li>${finding}</li>`)}
        ${oddities.map((oddity) => html`<li><span class="quiet">As found:</span> ${oddity}</li>`)}
      </ul>
    </section>`;
  }

  private renderMasking({ parts }: Story) {
    const decision = this.decision.answer.status === 'failed' ? undefined : this.decision.answer.value;
    if (decision === undefined || decision.parts.length === 0) return nothing;
    return html`<section>
      <bt-masking-figure .parts=${decision.parts} .evidence=${parts} .name=${`Which parts mask each other, ${this.repair}`}></bt-masking-figure>
    </section>`; // prettier-ignore
  }

  /** Only a board that is still on the bench waits for a next check. */
  private renderNext({ line }: Story) {
    if (line.repair.outcome !== 'open') return nothing;
    return html`<section>
      <bt-repair-next .session=${this.session} .repair=${this.repair} .changes=${this.changes}></bt-repair-next>
    </section>`;
  }

  private renderRunIn({ readings }: Story) {
    if (!readings.some(({ stage }) => stage === 'run-in')) return nothing;
    return html`<section>
      <bt-repair-run-in .session=${this.session} .repair=${this.repair}></bt-repair-run-in>
    </section>`;
  }

  private renderDischarge({ line, readings }: Story) {
    const bulk = readings.findLast(
      ({ point, mode, state, stage }) =>
        mode === 'DC volts' && state === 'value' && isPowered(stage) && roleOf(point) === 'bulk',
    );
    return html`<section>
      <bt-repair-discharge
        .family=${line.repair.family}
        .read=${bulk === undefined ? '' : formatShown(bulk.value, 'V', { ...bulk, prefix: 0 }, this.mark).number}
        .decimalMark=${this.mark}
      ></bt-repair-discharge>
    </section>`;
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

  private renderReadings({ line, readings, runInLeftOut = 0 }: Story) {
    const { decimalMark } = this.session.state;
    if (readings.length === 0) return html`<p>No reading of this repair has been brought in.</p>`;
    const all = readingsHash({ filters: [{ field: 'repair', oneOf: [line.repair.id] }] });
    return html`<section aria-labelledby="readings">
      <h2 id="readings">What was measured, stage by stage?</h2>
      <p class="quiet">
        ${countOf(line.readings, 'reading', decimalMark)}, ${countText(line.outOfBand, decimalMark)} out of band, in the order of
        their times. <a href=${all}>See them in the grid</a>${runInLeftOut === 0 ? nothing : ` Of the run-in, ${countOf(runInLeftOut, 'later reading', decimalMark)} drawn above ${runInLeftOut === 1 ? 'is' : 'are'} not listed.`}
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
      <td class="wraps">${finding === reason ? '' : reason}</td>
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
      ${this.decision.answer.status === 'failed' ? nothing : besideTable(this.decision.answer.value?.comparisons ?? [], this.mark)}
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
    return html`${this.view === 'edit' ? this.renderForm(story) : this.renderFacts(story)} ${this.renderDecision()}
      ${this.renderNext(story)} ${this.renderFindings(story)}
      <div class="beside">${this.renderParts(story)} ${this.renderMasking(story)}</div>
      ${this.renderRunIn(story)} ${this.renderReadings(story)} ${this.renderDischarge(story)}
      <bt-history .session=${this.session} .subject=${{ kind: 'repair' as const, repair: this.repair }}></bt-history>`;
  }

  private renderSheet() {
    const [story, decision] = [this.story.answer, this.decision.answer];
    if (story.status === 'failed' || decision.status === 'failed') return undefined;
    if (story.value?.found === undefined || decision.value === undefined) return undefined;
    return html`<bt-sheet-board
      .story=${story.value.found}
      .decision=${decision.value}
      .decimalMark=${this.mark}
    ></bt-sheet-board>`;
  }

  override render() {
    const sheet = this.view === 'sheet' ? this.renderSheet() : undefined;
    if (sheet !== undefined) return sheet;
    return html`<div class="head">
        <h1>${this.repair}</h1>
        ${
          this.isUnknown
            ? nothing
            : html`<a href=${boardSheetHash(this.repair)}>Sheet to print</a>
                <a href=${repairFormHash(this.repair)}>Correct the record</a>`
        }
      </div>
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

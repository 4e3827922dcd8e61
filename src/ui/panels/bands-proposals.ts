import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { Band } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import { RETURNED_AND_HELD, type GoodRule } from '../../domain/good-rule.ts';
import { markedVolts, usualPercent } from '../../domain/marking.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { LearningSettings, ProposalLine } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText } from '../band-text.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { bandsHash, hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, listText } from '../words.ts';
import { authorOf, rememberAuthor } from './band-author.ts';
import { readDraft } from './band-draft.ts';
import './band-good-rule.ts';
import { DEFAULT_LEARNING, keepRule, ruleOf, SHARES, SIDES_WORDS } from './band-learning.ts';
import { benchChanged } from './band-outcome.ts';
import { quantityField } from './band-typed.ts';
import { checkKey, checkText, sharePercent, today } from './band-words.ts';
import { isFew, proposalRows, type Marking, type RowsContext } from './bands-proposal-rows.ts';
import { LearningRun } from './bands-learning-run.ts';
import { bandsProposalsStyles } from './bands-proposals.styles.ts';

const COLUMNS = [
  'check',
  'proposed',
  'good readings',
  'how',
  'good stopped',
  'bad let through',
  'present band',
] as const;
const NUMBERS: readonly string[] = ['good readings', 'good stopped', 'bad let through'];

/**
 * Bands learned from boards known to be good, for a whole family or one check, each with what backs it and its trial on
 * past boards. Nothing changes before it is accepted.
 * @fires bench-changed - detail: Outcome
 */
@customElement('bt-bands-proposals')
export class BandsProposals extends LitElement {
  static override styles = [shared, bandsProposalsStyles];

  private readonly rule = new AnswerController<GoodRule>(this, () => ({
    key: this.revision,
    ask: (signal) => ruleOf(this.session, signal),
    keepsLast: true,
  }));
  private readonly lines = new AnswerController<readonly ProposalLine[]>(this, () => {
    const { family } = this.about;
    if (family === undefined) return undefined;
    const key = JSON.stringify([this.revision, this.about, this.settings, [...this.ownSides], this.round]);
    return { key, ask: (signal) => this.propose(family, signal), keepsLast: true };
  });

  private readonly run = new LearningRun(this);

  private readonly making = new ChangeController(this);

  @state() private content = DEFAULT_LEARNING.content;
  @state() private confidence = DEFAULT_LEARNING.confidence;
  @state() private sides = DEFAULT_LEARNING.sides;
  /** Sides chosen for one check, by its key. */
  @state() private ownSides: ReadonlyMap<string, LearningSettings['sides']> = new Map();
  @state() private keptRows: readonly number[] = [];
  @state() private ticked: ReadonlySet<string> = new Set();
  @state() private markings: ReadonlyMap<string, Marking> = new Map();
  @state() private author = '';
  /** Why bands are accepted that let boards through which are known to be bad. */
  @state() private why = '';
  @state() private asksWhy = false;
  /** Counted up to learn again after a stop. */
  @state() private round = 0;

  @property({ attribute: false }) session!: Session;
  /** The family, or one check of it. */
  @property({ attribute: false }) about: Partial<Check> = {};
  /** Tells one state of the bench from another. */
  @property({ attribute: false }) revision = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('session')) this.author = authorOf(this.session);
    const before = changed.get('about');
    if (before !== undefined && JSON.stringify(before) !== JSON.stringify(this.about)) {
      this.ticked = new Set();
      this.why = '';
      this.making.clear();
    }
  }

  private get mark() {
    return this.session.state.decimalMark;
  }

  /** All that a band is learned with, but for the rule of known-good boards, which the bench keeps. */
  private get settings(): Omit<LearningSettings, 'rule'> {
    const { content, confidence, sides, keptRows, mark } = this;
    return { content, confidence, sides, keptRows, mark };
  }

  private sidesOf(check: Check): LearningSettings['sides'] {
    return this.ownSides.get(checkKey(check)) ?? this.sides;
  }

  private async propose(family: string, signal: AbortSignal): Promise<readonly ProposalLine[]> {
    const settings = { ...this.settings, rule: await ruleOf(this.session, signal) };
    const settingsOf = (check: Check): LearningSettings => ({ ...settings, sides: this.sidesOf(check) });
    const { point, stage, mode } = this.about;
    if (point !== undefined && stage !== undefined && mode !== undefined) {
      const check = { family, point, stage, mode };
      return [await this.session.ask('propose', [check, settingsOf(check)], signal)];
    }
    const lines = await this.run.learn(this.session, family, settings, signal);
    return Promise.all(
      lines.map(async (line) => {
        if (!this.ownSides.has(checkKey(line.check))) return line;
        return this.session.ask('propose', [line.check, settingsOf(line.check)], signal);
      }),
    );
  }

  private learnAgain(): void {
    this.round += 1;
  }

  private get context(): RowsContext {
    return {
      mark: this.mark,
      columns: COLUMNS.length + 2,
      sides: (check) => this.sidesOf(check),
      isTicked: (check) => this.ticked.has(checkKey(check)),
      tick: (check, ticked) => {
        this.tick([check], ticked);
      },
      keep: (row, kept) => {
        this.keptRows = kept ? [...this.keptRows, row] : this.keptRows.filter((one) => one !== row);
      },
      chooseSides: (check, sides) => {
        this.ownSides = new Map([...this.ownSides, [checkKey(check), sides]]);
      },
      accept: (bands) => {
        void this.accept(bands);
      },
      marking: (check) => this.markingOf(check),
      typeMarking: (check, typed) => {
        this.markings = new Map([...this.markings, [checkKey(check), { ...this.markingOf(check), ...typed }]]);
      },
      acceptMarking: (check) => {
        void this.acceptMarking(check);
      },
    };
  }

  private markingOf(check: Check): Marking {
    const volts = markedVolts(check.point);
    const nominal = volts === undefined ? '' : quantityField(volts, 'V', this.mark);
    return this.markings.get(checkKey(check)) ?? { nominal, percent: String(usualPercent(check.point)) };
  }

  private tick(checks: readonly Check[], ticked: boolean): void {
    const next = new Set(this.ticked);
    for (const check of checks) {
      if (ticked) next.add(checkKey(check));
      else next.delete(checkKey(check));
    }
    this.ticked = next;
  }

  private chooseContent(event: Event): void {
    this.content = Number((event.target as HTMLSelectElement).value);
  }

  private chooseConfidence(event: Event): void {
    this.confidence = Number((event.target as HTMLSelectElement).value);
  }

  private async chooseRule({ detail }: CustomEvent<GoodRule>): Promise<void> {
    await this.making.make(() => keepRule(this.session, detail));
  }

  private chooseSides(event: Event): void {
    this.sides = (event.target as HTMLSelectElement).value as LearningSettings['sides'];
    this.ownSides = new Map();
  }

  private typeAuthor(event: Event): void {
    this.author = (event.target as HTMLInputElement).value;
    rememberAuthor(this.session, this.author);
  }

  private async acceptMarking(check: Check): Promise<void> {
    const { nominal, percent } = this.markingOf(check);
    const blank = { low: '', high: '', below: '', above: '', mains: '' };
    const read = readDraft({ ...blank, kind: 'percent', nominal, percent }, MODE_UNITS[check.mode], this.mark);
    if ('fault' in read) this.making.refuse(`${check.point}, ${check.stage}: ${read.fault}`);
    else await this.accept([{ ...check, expects: read.expects, basis: 'board marking' }]);
  }

  private async accept(bands: readonly Band[]): Promise<void> {
    const [first] = bands;
    if (first === undefined) {
      this.making.refuse('No proposal is ticked: tick those that are to be accepted.');
      return;
    }
    const through = bands.filter((band) => this.letsThrough(band)).map(({ point }) => point);
    if (through.length > 0 && this.why.trim() === '') {
      this.asksWhy = true;
      this.making.refuse(`${listText([...new Set(through)])} would let boards through that are known to be bad. Write why that is right, or leave ${through.length === 1 ? 'it' : 'them'} out.`); // prettier-ignore
      await this.updateComplete;
      this.renderRoot.querySelector<HTMLElement>('#why')?.focus();
      return;
    }
    const author = this.author.trim();
    const signed = bands.map((band): Band => ({ ...band, ...(author === '' ? {} : { author }), date: today() }));
    const made = await this.making.make(() => this.session.ask('setBands', through.length > 0 ? [signed, this.why] : [signed])); // prettier-ignore
    if (made === undefined) return;
    this.ticked = new Set();
    this.why = '';
    this.asksWhy = false;
    const expects = expectationText(first.expects, MODE_UNITS[first.mode], this.mark);
    const what = bands.length === 1 ? `${first.point} should read ${expects} now.` : `${countOf(bands.length, 'band', this.mark)} of ${first.family} set.`; // prettier-ignore
    this.dispatchEvent(benchChanged(what, made.result));
  }

  /** Whether a proposed band would have let past boards through that are known to be bad. */
  private letsThrough(band: Band): boolean {
    const lines = valueOf(this.lines.answer) ?? [];
    return lines.some(({ proposal }) => proposal?.band === band && proposal.trial.badLetThrough.count > 0);
  }

  private typeWhy(event: Event): void {
    this.why = (event.target as HTMLInputElement).value;
  }

  private renderSettings() {
    const shares = (chosen: number) =>
      SHARES.map(
        (share) =>
          html`<option value=${share} ?selected=${share === chosen}>${sharePercent(share, this.mark)} %</option>`,
      );
    return html`<div class="settings" role="group" aria-label="How bands are learned">
      <label
        >A band holds
        <select @change=${this.chooseContent}>
          ${shares(this.content)}
        </select>
        of boards</label
      >
      <label
        >with
        <select @change=${this.chooseConfidence}>
          ${shares(this.confidence)}
        </select>
        confidence</label
      >
      <label
        >on
        <select @change=${this.chooseSides}>
          ${(['both', 'at least', 'at most'] as const).map(
            (sides) => html`<option value=${sides} ?selected=${sides === this.sides}>${SIDES_WORDS[sides]}</option>`,
          )}
        </select></label
      >
      <bt-band-good-rule
        .rule=${valueOf(this.rule.answer) ?? RETURNED_AND_HELD}
        @rule-changed=${this.chooseRule}
      ></bt-band-good-rule>
    </div>`;
  }

  private renderTable(lines: readonly ProposalLine[]) {
    // The weak ones are looked at and taken one by one.
    const sound = lines.flatMap(({ check, proposal }) => (isWellFounded(proposal) ? [check] : []));
    const all = sound.length > 0 && sound.every((check) => this.ticked.has(checkKey(check)));
    const { context } = this;
    return html`<div class="sideways">
      <table aria-labelledby="title">
        <thead>
          <tr>
            <th scope="col" class="choose">
              <input
                type="checkbox"
                aria-label="Tick all well-founded proposals"
                ?disabled=${sound.length === 0}
                .checked=${all}
                .indeterminate=${this.ticked.size > 0 && !all}
                @change=${(event: Event) => {
                  this.tick(sound, (event.target as HTMLInputElement).checked);
                }}
              />
            </th>
            ${COLUMNS.map((name) => html`<th scope="col" class=${NUMBERS.includes(name) ? 'number' : ''}>${name}</th>`)}
            <th scope="col"><span class="spoken">accept</span></th>
          </tr>
        </thead>
        <tbody>
          ${lines.map((line) => proposalRows(line, context))}
        </tbody>
      </table>
    </div>`;
  }

  private renderActions(lines: readonly ProposalLine[]) {
    const bands = lines.flatMap(({ check, proposal }) =>
      proposal !== undefined && this.ticked.has(checkKey(check)) ? [proposal.band] : [],
    );
    return html`<div class="actions">
      <button class="main" type="button" ?disabled=${this.making.isBusy} @click=${() => this.accept(bands)}>
        Accept ${countOf(bands.length, 'ticked band', this.mark)}
      </button>
      <label>set by <input type="text" autocomplete="name" .value=${this.author} @input=${this.typeAuthor} /></label>
      ${
        this.asksWhy
          ? html`<label>why <input id="why" type="text" .value=${this.why} @input=${this.typeWhy} /></label>`
          : nothing
      }
      ${
        this.making.fault === undefined
          ? html`<span class="quiet">Nothing changes before it is accepted, and what is accepted can be undone.</span>`
          : this.making.faultLine()
      }
    </div>`;
  }

  private renderLines(family: string) {
    const { answer } = this.lines;
    if (answer.status === 'failed' && this.run.isStopped) {
      return html`<p role="status">
        Learning was cancelled, and nothing has changed.
        <button type="button" @click=${this.learnAgain}>Learn</button>
      </p>`;
    }
    if (answer.status === 'failed') return html`<p class="wrong" role="alert">${answer.reason}</p>`;
    if (answer.value === undefined) return this.run.render(`Learning from the boards of ${family}.`, this.session);
    const lines = answer.value;
    if (lines.length === 0) {
      return html`<p>
        By this rule no board of ${family} is known to be good, so nothing can be learned. Choose another, or
        <a href=${hashOf('shift')}>bring in</a> the logs of boards that were returned working, with the table of repairs
        that says so.
      </p>`;
    }
    const learned = lines.filter(({ proposal }) => proposal !== undefined).length;
    const weak = learned - lines.filter(({ proposal }) => isWellFounded(proposal)).length;
    return html`<p class="quiet">
        ${countOf(learned, 'proposal', this.mark)} for ${countOf(lines.length, 'check', this.mark)} with readings of
        known-good boards. A board counts once, by its last reading. “Good stopped” and “bad let through” are counted on
        past boards, with 95 % intervals.
        ${weak === 0 ? nothing : `${countOf(weak, 'proposal', this.mark)} ${weak === 1 ? 'is' : 'are'} weakly founded: tick or accept ${weak === 1 ? 'it' : 'each'} by itself.`}
      </p>
      ${answer.status === 'pending' ? this.run.render('Learning again.', this.session) : nothing}
      ${this.renderTable(lines)} ${this.renderActions(lines)}`;
  }

  override render() {
    const { family, point, stage, mode } = this.about;
    const crumbs = html`<p class="crumbs">
      <a href=${bandsHash()}>Bands</a
      >${family === undefined ? nothing : html` · <a href=${bandsHash(undefined, { family })}>${family}</a>`}
    </p>`;
    if (family === undefined) {
      return html`${crumbs}
        <h1>Which family?</h1>
        <p>This address names no family: choose one among the <a href=${bandsHash()}>bands</a>.</p>`;
    }
    const one = point !== undefined && stage !== undefined && mode !== undefined;
    return html`${crumbs}
      <h1 id="title">
        What should ${one ? checkText({ family, point, stage, mode }) : `the points of ${family}`} read?
      </h1>
      ${one ? html`<p><a href=${bandsHash('proposals', { family })}>All proposals for ${family}</a></p>` : nothing}
      ${this.renderSettings()} ${this.renderLines(family)}`;
  }
}

/** Whether nothing speaks against a proposal: enough boards, nothing to be warned of, and no bad board of the past let through. */
function isWellFounded(proposal: ProposalLine['proposal']): boolean {
  return proposal?.warnings.length === 0 && !isFew(proposal) && proposal.trial.badLetThrough.count === 0;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-bands-proposals': BandsProposals;
  }
}

import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { Band, BandKind, Expectation } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { GoodRule } from '../../domain/good-rule.ts';
import type { Unit } from '../../domain/quantity.ts';
import { MODE_UNITS, STAGES, type Stage } from '../../domain/reading.ts';
import type { FacetValue, ProposalLine, Rejudged, Trial } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { expectationText } from '../band-text.ts';
import type { LimitMove } from '../charts/reading-strip.ts';
import '../charts/reading-strip.ts';
import { stripTable } from '../charts/strip-table.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { DraftController } from '../controllers/draft-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { GridVoiceController } from '../controllers/grid-voice-controller.ts';
import { bandsHash } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';
import { authorOf, rememberAuthor } from './band-author.ts';
import { draftLimits, draftOf, emptyDraft, movableSides, readDraft, turnedTo, withLimit } from './band-draft.ts';
import { bandEditorStyles } from './band-editor.styles.ts';
import type { BandForm, BandFormElement } from './band-form.ts';
import './band-form.ts';
import './band-good-rule.ts';
import { benchChanged } from './band-outcome.ts';
import { changedElsewhere } from './changed-elsewhere.ts';
import { openCheck, type Opened } from './band-opened.ts';
import './band-results.ts';
import './history.ts';
import { TrialController } from './band-trial.ts';
import { DEFAULT_LEARNING, keepRule } from './band-learning.ts';
import { checkKey, checkText, today, trialText } from './band-words.ts';

const MOVING =
  ' Dashed: the band you set. Drag its limits, or move them by the arrow keys: one last digit, with Shift ten.';

/**
 * One check: what it has read, what it should read, and what a band would have done to past boards. Nothing changes
 * before it is accepted.
 * @fires bench-changed - detail: Outcome
 */
@customElement('bt-band-editor')
export class BandEditor extends LitElement {
  static override styles = [shared, bandEditorStyles];

  private readonly stages = new AnswerController<readonly FacetValue[]>(this, () => {
    const { family = '', point = '', mode = '' } = this.about;
    const filters = [
      { field: 'family', oneOf: [family] },
      { field: 'point', oneOf: [point] },
      { field: 'mode', oneOf: [mode] },
    ] as const;
    return {
      key: JSON.stringify([this.revision, family, point, mode]),
      ask: (signal) => this.session.ask('facet', [{ filters, sort: [] }, 'stage'], signal),
      keepsLast: true,
    };
  });
  private readonly opened = new AnswerController<Opened>(this, () => {
    const { check } = this;
    if (check === undefined) return undefined;
    const key = this.revision + checkKey(check);
    return { key, ask: (signal) => openCheck(this.session, key, check, signal), keepsLast: true };
  });
  private readonly proposal = new AnswerController<ProposalLine>(this, () => {
    const opened = valueOf(this.opened.answer);
    if (opened === undefined || opened.points.value.length === 0) return undefined;
    const { key, check, rule } = opened;
    const mark = this.session.state.decimalMark;
    const settings = { ...DEFAULT_LEARNING, rule, mark };
    return { key: key + mark, ask: (signal) => this.session.ask('propose', [check, settings], signal) };
  });
  private readonly trial = new TrialController(this);
  private readonly voice = new GridVoiceController(this);
  private readonly making = new ChangeController(this);
  /** What was typed stays, whatever band the check has by now; another check is another form. */
  private readonly forms = new DraftController<BandForm>(this, () => {
    const opened = valueOf(this.opened.answer);
    if (opened === undefined) return undefined;
    const { check, points } = opened;
    return { subject: checkKey(check), draft: this.formOf(opened), version: [points.band] };
  });

  @query('bt-band-form') private readonly formElement!: BandFormElement | null;

  /** Why a band is accepted that lets boards through which are known to be bad. */
  @state() private why = '';

  @property({ attribute: false }) session!: Session;
  /** What the address names: family, point and mode; the stage may be left open. */
  @property({ attribute: false }) about: Partial<Check> = {};
  /** Tells one state of the bench from another. */
  @property({ attribute: false }) revision = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (changed.has('about')) this.making.clear();
    const opened = valueOf(this.opened.answer);
    if (opened === undefined) return;
    this.forms.follow();
    const { key, check, rule, points } = opened;
    const read = this.read;
    if (read === undefined || !('expects' in read) || points.value.length === 0) this.trial.drop();
    else {
      const { expects } = read;
      this.trial.want(key + JSON.stringify(expects), () => this.session.ask('tryBand', [check, expects, rule]));
    }
  }

  protected override updated(): void {
    const { trial } = this.trial;
    if (trial !== undefined) this.voice.say(`${this.stoppedText(trial)}; ${this.throughText(trial)}.`);
  }

  /** The check that is meant: at the stage that the address names, else at the one with most readings. */
  private get check(): Check | undefined {
    const { family, point, mode } = this.about;
    if (family === undefined || point === undefined || mode === undefined) return undefined;
    if (this.about.stage !== undefined) return { family, point, mode, stage: this.about.stage };
    const { answer } = this.stages;
    if (answer.status !== 'ready') return undefined;
    const most = answer.value.reduce<FacetValue | undefined>((best, one) => (best === undefined || one.count > best.count ? one : best), undefined); // prettier-ignore
    const stage = STAGES.find((one) => one === most?.value) ?? 'live';
    return { family, point, mode, stage };
  }

  private get unit(): Unit {
    return MODE_UNITS[this.about.mode ?? 'DC volts'];
  }

  private get mark() {
    return this.session.state.decimalMark;
  }

  private get form(): BandForm | undefined {
    return this.forms.draft && { ...this.forms.draft, author: authorOf(this.session) };
  }

  private get read() {
    return this.form === undefined ? undefined : readDraft(this.form.draft, this.unit, this.mark);
  }

  private formOf({ check, points: { band } }: Opened): BandForm {
    if (band !== undefined) {
      const draft = draftOf(band.expects, this.unit, this.mark);
      return { draft, basis: band.basis, author: '', scope: band.stage === undefined ? 'any' : 'stage' };
    }
    const draft = emptyDraft(check.point, this.unit, this.mark);
    return { draft, basis: draft.kind === 'percent' ? 'board marking' : 'typed in', author: '', scope: 'stage' };
  }

  private changeForm({ detail }: CustomEvent<Partial<BandForm>>): void {
    if (this.form === undefined) return;
    // Limits that somebody types are typed in, unless they say where they have them from.
    const basis = detail.draft === undefined ? {} : { basis: 'typed in' as const };
    if (detail.author === undefined) this.forms.type({ ...this.form, ...basis, ...detail });
    else {
      rememberAuthor(this.session, detail.author);
      this.requestUpdate();
    }
  }

  private async chooseRule({ detail }: CustomEvent<GoodRule>): Promise<void> {
    await this.making.make(() => keepRule(this.session, detail));
  }

  private chooseKind({ detail }: CustomEvent<BandKind>): void {
    if (this.form === undefined) return;
    const draft = turnedTo(this.form.draft, detail, this.unit, this.mark);
    this.forms.type({ ...this.form, draft, basis: 'typed in' });
  }

  private moveLimit({ detail }: CustomEvent<LimitMove>): void {
    if (this.form === undefined) return;
    const draft = withLimit(this.form.draft, detail.side, detail.value, this.unit, this.mark);
    if (JSON.stringify(draft) !== JSON.stringify(this.form.draft))
      this.forms.type({ ...this.form, draft, basis: 'typed in' });
  }

  private takeOver({ detail }: CustomEvent<Expectation>): void {
    if (this.form === undefined) return;
    this.forms.type({ ...this.form, draft: draftOf(detail, this.unit, this.mark), basis: 'learned' });
  }

  private async accept(check: Check): Promise<void> {
    const { form, read } = this;
    if (form === undefined || read === undefined) return;
    if ('fault' in read) {
      this.formElement?.focusFault();
      return;
    }
    const { family, point, mode, stage } = check;
    const author = form.author.trim();
    const band: Band = {
      family,
      point,
      mode,
      ...(form.scope === 'stage' ? { stage } : {}),
      expects: read.expects,
      basis: form.basis,
      ...(author === '' ? {} : { author }),
      date: today(),
    };
    const through = this.trial.trial?.badLetThrough.count ?? 0;
    const why = this.why.trim();
    if (through > 0 && why === '') {
      this.making.refuse(`This band lets ${countOf(through, 'board', this.mark)} through that ${through === 1 ? 'is' : 'are'} known to be bad: write why that is right, or move a limit.`); // prettier-ignore
      await this.updateComplete;
      this.renderRoot.querySelector<HTMLElement>('#why')?.focus();
      return;
    }
    const text = expectationText(read.expects, this.unit, this.mark);
    await this.run(`${point} should read ${text} now.`, () => this.session.ask('setBands', through > 0 ? [[band], why] : [[band]])); // prettier-ignore
    if (this.making.fault === undefined) this.why = '';
  }

  private typeWhy(event: Event): void {
    this.why = (event.target as HTMLInputElement).value;
  }

  private async removeBand(band: Band): Promise<void> {
    await this.run(`The band of ${band.point} is removed.`, () => this.session.ask('removeBand', [band]));
  }

  private async run(what: string, change: () => Promise<Rejudged>): Promise<void> {
    const made = await this.making.make(change);
    if (made === undefined) return;
    this.forms.saved();
    this.dispatchEvent(benchChanged(what, made.result));
  }

  private stoppedText({ goodStopped }: Trial): string {
    return `${trialText(goodStopped, this.mark)} good boards stopped`;
  }

  private throughText({ badLetThrough }: Trial): string {
    return `${trialText(badLetThrough, this.mark)} bad ones let through`;
  }

  private renderStages(check: Check) {
    const values = valueOf(this.stages.answer) ?? [];
    if (values.length < 2) return nothing;
    return html`<nav class="stages" aria-label="Stages">
      ${values.map(({ value, count }) => {
        const href = bandsHash('check', { ...check, stage: value as Stage });
        return html`<a href=${href} aria-current=${value === check.stage ? 'true' : 'false'}
          >${value} · ${countText(count, this.mark)}</a
        >`;
      })}
    </nav>`;
  }

  private renderStrip({ check, rule, points }: Opened) {
    const of = (code: number): number => points.standing.reduce((sum, own) => sum + (own === code ? 1 : 0), 0);
    const read = this.read ?? { fault: '' };
    const total = points.value.length;
    const movable = this.form === undefined ? [] : movableSides(this.form.draft.kind);
    return html`<section class="what" aria-labelledby="what">
      <h2 id="what">What has ${check.point} read?</h2>
      <p class="quiet">
        ${
          total === 0
            ? 'No past reading of it is on the bench, so that a band can be set but not tried.'
            : html`${countOf(total, 'reading', this.mark)}: ${countText(of(1), this.mark)} known good,
              ${countText(of(2), this.mark)} known bad, ${countText(of(0), this.mark)} of which nobody can
              say.${points.limits === undefined ? '' : ' Shaded: the present band.'}${movable.length === 0 ? '' : MOVING}`
        }
      </p>
      <bt-reading-strip
        .points=${points}
        .unit=${this.unit}
        .present=${points.limits}
        .draft=${draftLimits(read)}
        .movable=${movable}
        .decimalMark=${this.mark}
        .about=${`Past readings of ${checkText(check)}`}
        @limit-moved=${this.moveLimit}
      ></bt-reading-strip>
      ${
        total === 0
          ? nothing
          : html`<bt-band-good-rule .rule=${rule} @rule-changed=${this.chooseRule}></bt-band-good-rule>`
      }
    </section>`;
  }

  private renderForm(opened: Opened, form: BandForm) {
    const { check, points } = opened;
    const { band } = points;
    const read = this.read ?? { fault: '' };
    const fault = 'fault' in read ? read.fault : undefined;
    const hidden = form.scope === 'any' && band?.stage !== undefined;
    return html`<section aria-labelledby="set">
      <h2 id="set">What should it read?</h2>
      <bt-band-form
        .form=${form}
        .unit=${this.unit}
        .stage=${check.stage}
        .fault=${fault}
        .faultField=${'fault' in read ? read.field : undefined}
        @form-changed=${this.changeForm}
        @kind-chosen=${this.chooseKind}
      ></bt-band-form>
      ${
        hidden
          ? html`<p class="wrong">
              At ${check.stage} the band of that stage alone goes before it: remove that one first.
            </p>`
          : nothing
      }
      ${changedElsewhere(this.session, this.forms, `The band of ${check.point}`, { kind: 'band', band: band ?? check })}
      ${
        (this.trial.trial?.badLetThrough.count ?? 0) === 0
          ? nothing
          : html`<p>
              <label
                >Why is it right that known bad boards pass?
                <input id="why" type="text" .value=${this.why} @input=${this.typeWhy}
              /></label>
            </p>`
      }
      ${this.making.faultLine()}
      <div class="actions">
        <button
          class="main"
          type="button"
          ?disabled=${this.making.isBusy || this.forms.isOutdated}
          @click=${() => this.accept(check)}
        >
          Accept
        </button>
        <button class="plain" type="button" @click=${this.forms.takeStored}>As it was</button>
        ${
          band === undefined
            ? nothing
            : html`<button
                class="plain"
                type="button"
                ?disabled=${this.making.isBusy}
                @click=${() => this.removeBand(band)}
              >
                Remove the present band
              </button>`
        }
      </div>
    </section>`;
  }

  override render() {
    const { family, point, mode } = this.about;
    const crumbs = html`<p class="crumbs">
      <a href=${bandsHash()}>Bands</a
      >${family === undefined ? nothing : html` · <a href=${bandsHash(undefined, { family })}>${family}</a>`}
    </p>`;
    if (family === undefined || point === undefined || mode === undefined) {
      return html`${crumbs}
        <h1>Which check?</h1>
        <p>This address names no check: choose one among the <a href=${bandsHash()}>bands</a>.</p>`;
    }
    const { answer } = this.opened;
    const opened = valueOf(answer);
    if (answer.status === 'failed') return html`${crumbs}<h1>${point}</h1><p class="wrong" role="alert">${answer.reason}</p>`; // prettier-ignore
    if (opened === undefined || this.form === undefined) {
      return html`${crumbs}
        <h1>${point}</h1>
        <p class="quiet">Looking up its past readings.</p>`;
    }
    const { check } = opened;
    const { read } = this;
    return html`${crumbs}
      <h1>${checkText(check)}</h1>
      ${this.renderStages(check)} ${this.renderStrip(opened)}
      <div class="beside">
        ${this.renderForm(opened, this.form)}
        <div class="results">
          <bt-band-results
            .opened=${opened}
            .expects=${read !== undefined && 'expects' in read ? read.expects : undefined}
            .trial=${this.trial.trial}
            .proposal=${valueOf(this.proposal.answer)}
            .decimalMark=${this.mark}
            @proposal-taken=${this.takeOver}
          ></bt-band-results>
          ${this.trial.fault === undefined ? nothing : html`<p class="wrong">${this.trial.fault}</p>`}
          ${stripTable(opened.points, this.unit, this.mark)}
        </div>
      </div>
      <bt-history
        .session=${this.session}
        .subject=${{ kind: 'band' as const, band: opened.points.band ?? opened.check }}
      ></bt-history>
      <span class="spoken" role="status">${this.voice.text}</span>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-band-editor': BandEditor;
  }
}

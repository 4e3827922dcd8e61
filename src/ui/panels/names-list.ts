import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { NameAnswer, UnknownName } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import '../paging.ts';
import { pageOf } from '../paging.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf, countText } from '../words.ts';

const PAGE = 10;

const KINDS: Readonly<Record<UnknownName['kind'], string>> = {
  family: 'board family',
  point: 'test point',
  meter: 'meter',
};

/** Names that may stand behind an unknown one. */
interface KnownNames {
  readonly family: readonly string[];
  readonly meter: readonly string[];
  /** By family. */
  readonly point: ReadonlyMap<string, readonly string[]>;
}

/** Names that readings brought and nothing knows: each is new, or another name for a known one. The answers are remembered. */
@customElement('bt-names-list')
export class NamesList extends LitElement {
  static override styles = [
    shared,
    css`
      h2:focus-visible {
        outline: none;
      }

      ul {
        margin: 0.5rem 0;
        padding: 0;
        list-style: none;
      }

      li {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem 0.75rem;
        padding: 0.375rem 0;
        border-bottom: 1px solid var(--rule);
      }

      .all {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0.25rem 1rem;
        margin: 0.5rem 0;
      }

      .name {
        overflow-wrap: anywhere;
        unicode-bidi: isolate;
      }

      select {
        max-width: 16rem;
      }
    `,
  ];

  private readonly known = new AnswerController<KnownNames>(this, () => ({
    key: String(this.session.state.revision),
    ask: (signal) => this.askKnown(signal),
    keepsLast: true,
  }));

  private readonly making = new ChangeController(this);

  @state() private firstShown = 0;
  @state() private asksWhetherAllNew = false;
  /** What was answered last. */
  @state() private said = '';

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) names: readonly UnknownName[] = [];

  private async askKnown(signal: AbortSignal): Promise<KnownNames> {
    const [{ families }, meters] = await Promise.all([
      this.session.ask('bands', [], signal),
      this.session.ask('meters', [], signal),
    ]);
    return {
      family: families.map(({ name }) => name),
      meter: meters.map(({ name }) => name),
      point: new Map(families.map(({ name, points }) => [name, points.map((point) => point.name)])),
    };
  }

  /** Names that may be meant: the likeliest first, then the others of its kind, without those that are asked about themselves. */
  private meanings({ kind, name, family, alike }: UnknownName): readonly string[] {
    const known = this.known.answer.status === 'failed' ? undefined : this.known.answer.value;
    const others = kind === 'point' ? (known?.point.get(family ?? '') ?? []) : (known?.[kind] ?? []);
    const asked = new Set(
      this.names.filter((one) => one.kind === kind && one.family === family).map((one) => one.name),
    );
    return [...new Set([...alike, ...others])].filter((other) => other !== name && !asked.has(other));
  }

  private async answer(unknown: UnknownName, at: number, meaning?: string): Promise<void> {
    const { kind, name } = unknown;
    const answer = answerOf(unknown, meaning);
    if ((await this.making.make(() => this.session.ask('answerNames', [[answer]]))) === undefined) return;
    this.said = meaning === undefined ? `${name} is a new ${KINDS[kind]}.` : `${name} is ${meaning} from now on.`;
    await this.updateComplete;
    const rows = this.renderRoot.querySelectorAll('li');
    const next = rows[Math.min(at, rows.length - 1)]?.querySelector('button');
    (next ?? this.renderRoot.querySelector<HTMLElement>('h2'))?.focus();
  }

  private async answerAll(answers: readonly NameAnswer[], said: string): Promise<void> {
    if ((await this.making.make(() => this.session.ask('answerNames', [answers]))) === undefined) return;
    this.said = said;
    this.asksWhetherAllNew = false;
    await this.updateComplete;
    (this.renderRoot.querySelector<HTMLElement>('li button') ?? this.renderRoot.querySelector<HTMLElement>('h2'))?.focus(); // prettier-ignore
  }

  private async askWhetherAllNew(asks: boolean): Promise<void> {
    this.asksWhetherAllNew = asks;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(asks ? '[data-keep]' : '.all button')?.focus();
  }

  private renderAll() {
    const { names, making } = this;
    const count = countOf(names.length, 'name', this.session.state.decimalMark);
    const otherwise = names.filter(({ same }) => same !== undefined);
    if (names.length < 2 && otherwise.length === 0) return nothing;
    if (this.asksWhetherAllNew) {
      const takeAll = (): Promise<void> =>
        this.answerAll(names.map((name) => answerOf(name)), `${count} are new.`); // prettier-ignore
      return html`<div class="all">
        <span>Are all ${count} new? None of them is then asked about again.</span>
        <button type="button" ?disabled=${making.isBusy} @click=${takeAll}>Take all as new</button>
        <button type="button" data-keep @click=${() => this.askWhetherAllNew(false)}>Ask about each</button>
      </div>`;
    }
    const spelled =
      otherwise.length === 1
        ? '1 name that is spelled otherwise as the one that is known'
        : `${otherwise.length} names that are spelled otherwise as those that are known`;
    return html`<div class="all">
      ${
        otherwise.length === 0
          ? nothing
          : html`<button
                type="button"
                ?disabled=${making.isBusy}
                aria-describedby="otherwise"
                @click=${() =>
                  this.answerAll(
                    otherwise.map((name) => answerOf(name, name.same)),
                    `Taken: ${otherwise.map(({ name, same }) => `${name} is ${same ?? name}`).join(', ')}.`,
                  )}
              >
                Take ${spelled}
              </button>
              <span id="otherwise" class="quiet">They differ in case, blanks and punctuation alone.</span>`
      }
      ${
        names.length < 2
          ? nothing
          : html`<button type="button" @click=${() => this.askWhetherAllNew(true)}>
              Take all ${countText(names.length, this.session.state.decimalMark)} as new…
            </button>`
      }
    </div>`;
  }

  private take(event: Event, name: UnknownName, at: number): void {
    const row = (event.currentTarget as HTMLElement).closest('li');
    const meaning = row?.querySelector('select')?.value;
    if (meaning !== undefined && meaning !== '') void this.answer(name, at, meaning);
  }

  private turn(event: CustomEvent<number>): void {
    this.firstShown = event.detail;
  }

  private renderName(unknown: UnknownName, at: number) {
    const { kind, name, family, readings } = unknown;
    const meanings = this.meanings(unknown);
    return html`<li>
      <span>
        <b class="name">${name}</b>
        <span class="quiet">
          ${family === undefined ? nothing : `of ${family}, `}in
          ${countOf(readings, 'reading', this.session.state.decimalMark)}, is
        </span>
      </span>
      <button type="button" aria-label=${`a new ${KINDS[kind]}: ${name}`} @click=${() => this.answer(unknown, at)}>
        a new ${KINDS[kind]}
      </button>
      ${
        meanings.length === 0
          ? nothing
          : html`<span class="quiet">or another name for</span>
              <select aria-label=${`The ${KINDS[kind]} that ${name} is another name for`}>
                ${meanings.map((meaning) => html`<option value=${meaning}>${meaning}</option>`)}
              </select>
              <button
                type="button"
                aria-label=${`Take it as that: ${name}`}
                @click=${(event: Event) => {
                  this.take(event, unknown, at);
                }}
              >
                Take it as that
              </button>`
      }
    </li>`;
  }

  override render() {
    const { names } = this;
    const { decimalMark } = this.session.state;
    if (names.length === 0) return html`<p role="status">${this.said}</p>`;
    const { items, first } = pageOf(names, this.firstShown, PAGE);
    return html`<h2 id="names" tabindex="-1">Which names are not known yet?</h2>
      <p class="quiet">
        ${countOf(names.length, 'name', decimalMark)}. Say of each whether it is new or another name for one that is
        known: the answer is remembered for the files to come.
      </p>
      <span role="status">${this.said}</span>
      ${this.making.faultLine()} ${this.renderAll()}
      <ul aria-labelledby="names">
        ${items.map((name, at) => this.renderName(name, at))}
      </ul>
      <bt-paging
        .total=${names.length}
        .first=${first}
        .size=${PAGE}
        .noun=${'names'}
        .decimalMark=${decimalMark}
        @page-turned=${this.turn}
      ></bt-paging>`;
  }
}

/** What is said of a name; without a meaning it is new. */
function answerOf({ kind, name, family }: Omit<NameAnswer, 'meaning'>, meaning?: string): NameAnswer {
  return { kind, name, ...(family !== undefined && { family }), ...(meaning !== undefined && { meaning }) };
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-names-list': NamesList;
  }
}

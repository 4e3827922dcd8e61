import { LitElement, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { UnknownName } from '../session/answers.ts';
import type { ImportPace } from '../session/import-pace.ts';
import type { Session } from '../session/session.ts';
import { appStyles } from './app.styles.ts';
import './caution-line.ts';
import { AnswerController } from './controllers/answer-controller.ts';
import { followSession } from './controllers/session-controller.ts';
import { carriesFiles, droppedFiles } from './dropped-files.ts';
import './file-button.ts';
import { PartLoader } from './part-loader.ts';
import { PLACES, hashOf, parseRoute, type Place, type Route } from './route.ts';
import { shared } from './styles/shared.styles.ts';
import { countOf, countText, listText } from './words.ts';

const NAMES: Readonly<Record<Place, string>> = {
  shift: 'Shift',
  readings: 'Readings',
  repairs: 'Repairs',
  bands: 'Bands',
  families: 'Families',
};

/** What an address shows: a place, or one repair's story. */
type Part = Place | 'story';

const PARTS: Readonly<Record<Part, () => Promise<unknown>>> = {
  shift: () => import('./panels/shift-place.ts'),
  readings: () => import('./panels/readings-place.ts'),
  repairs: () => import('./panels/repairs-place.ts'),
  story: () => import('./panels/repair-story.ts'),
  bands: () => import('./panels/bands-place.ts'),
  families: () => import('./panels/families-place.ts'),
};

/** Places that speak of work on boards under power. */
const LIVE_WORK: readonly Place[] = ['readings', 'repairs', 'bands'];

/** The whole page: its head, the place that the address names, and the drop of files anywhere. */
@customElement('bt-app')
export class App extends LitElement {
  static override styles = [shared, appStyles];

  private readonly names = new AnswerController<readonly UnknownName[]>(this, () => {
    const { session } = this;
    const revision = session?.state.revision ?? 0;
    if (session === undefined || revision === 0) return undefined;
    return { key: String(revision), ask: (signal) => session.ask('unknownNames', [], signal), keepsLast: true };
  });

  private readonly parts = new PartLoader<Part>(PARTS, () => {
    this.requestUpdate();
  });

  @query('main') private readonly main!: HTMLElement;

  @state() private route: Route = parseRoute(location.hash);
  @state() private dragging = false;

  @property({ attribute: false }) session?: Session;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  override connectedCallback(): void {
    super.connectedCallback();
    window.addEventListener('hashchange', this.follow);
    window.addEventListener('dragenter', this.drag);
    window.addEventListener('dragover', this.drag);
    window.addEventListener('dragleave', this.leave);
    window.addEventListener('drop', this.drop);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    window.removeEventListener('hashchange', this.follow);
    window.removeEventListener('dragenter', this.drag);
    window.removeEventListener('dragover', this.drag);
    window.removeEventListener('dragleave', this.leave);
    window.removeEventListener('drop', this.drop);
  }

  protected override willUpdate(): void {
    this.setAttribute('place', this.route.place);
  }

  protected override updated(changed: PropertyValues): void {
    const { place, item } = this.route;
    document.title = `${item ?? NAMES[place]} · Benchtally`;
    const before = changed.get('route') as Route | undefined;
    if (before === undefined || (before.place === place && before.item === item)) return;
    // Who follows a link by keyboard goes on from the place that it led to.
    this.main.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  }

  private readonly follow = (): void => {
    this.route = parseRoute(location.hash);
  };

  private readonly drag = (event: DragEvent): void => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    this.dragging = true;
  };

  private readonly leave = (event: DragEvent): void => {
    if (event.relatedTarget === null) this.dragging = false;
  };

  private readonly drop = (event: DragEvent): void => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    this.dragging = false;
    void this.takeDrop(event);
  };

  private async takeDrop(event: DragEvent): Promise<void> {
    const files = await droppedFiles(event);
    location.hash = hashOf('shift');
    await this.session?.bringIn(files);
  }

  private startEmpty(): void {
    void this.session?.startEmpty();
    location.hash = hashOf('shift');
  }

  private openOwn(): void {
    void this.session?.openOwn();
  }

  private cancel(): void {
    this.session?.cancelImport();
  }

  private dismiss(): void {
    this.session?.dismissProblem();
  }

  private renderBench(session: Session) {
    const { summary, bench, decimalMark, kept } = session.state;
    const own = bench === 'sample and own';
    // What is kept is emptied on Shift alone, where a backup is asked for before.
    const hasOwn = (kept.ledger?.imports.length ?? 0) > 0;
    return html`<div class="bench">
      <p>
        ${bench === 'own' ? 'This bench' : html`<b>Tern Lane</b> (sample, invented${own ? ', and your files' : ''})`}
        <span class="quiet">
          ${
            summary === undefined
              ? '· opening'
              : `· ${countOf(summary.readings, 'reading', decimalMark)} · ${countOf(summary.repairs, 'repair', decimalMark)}`
          }
        </span>
      </p>
      ${
        bench === 'own'
          ? nothing
          : hasOwn
            ? html`<button class="plain" type="button" @click=${this.openOwn}>Back to your own bench</button>`
            : html`<button class="plain" type="button" @click=${this.startEmpty}>
                Start an empty bench${own ? ', without your files too' : ''}
              </button>`
      }
      <bt-file-button .session=${session}></bt-file-button>
    </div>`;
  }

  /** A place's name in the head; of Shift also how much there asks for an answer. */
  private renderLink(place: Place, { waiting }: Session['state']) {
    const { answer } = this.names;
    const names = answer.status === 'failed' ? 0 : (answer.value?.length ?? 0);
    const open = place === 'shift' ? waiting.length + names : 0;
    return html`<a
      href=${hashOf(place)}
      data-text=${NAMES[place]}
      aria-current=${place === this.route.place ? 'page' : 'false'}
      >${NAMES[place]}${
        open === 0
          ? nothing
          : html` <span class="open"
              >${open}<span class="spoken"> ${open === 1 ? 'asks' : 'ask'} for an answer</span></span
            >`
      }</a
    >`;
  }

  private renderProgress(session: Session, pace: ImportPace) {
    const { decimalMark, queued } = session.state;
    const { file, fileNumber, files, bytes, totalBytes, rows, rowsPerSecond, secondsLeft } = pace;
    return html`<section class="strip" aria-label="Import in progress">
      <p role="status">Reading ${file}, file ${fileNumber} of ${files}.</p>
      <progress aria-label="Share of this file that is read" max=${Math.max(1, totalBytes)} .value=${bytes}></progress>
      <span class="number">${countText(rows, decimalMark)} rows</span>
      ${
        rowsPerSecond === undefined || secondsLeft === undefined
          ? nothing
          : html`<span class="number">${countText(roundedPace(rowsPerSecond), decimalMark)} rows a second</span>
              <span class="number">${timeLeft(secondsLeft)} left of this file</span>`
      }
      ${queued === 0 ? nothing : html`<span>${countOf(queued, 'more file', decimalMark)} after that</span>`}
      <button type="button" @click=${this.cancel}>Cancel</button>
    </section>`;
  }

  private renderElsewhere({ state: { elsewhere = [] } }: Session) {
    if (elsewhere.length === 0) return nothing;
    return html`<section class="strip" aria-label="Another tab">
      <p role="status">Another tab is bringing in ${listText(elsewhere)}.</p>
    </section>`;
  }

  private renderWaiting(session: Session, waits: string) {
    return html`<section class="strip" aria-label="Waiting">
      <p role="status">${waits}</p>
      ${
        session.state.canTakeOver === true
          ? html`<button type="button" @click=${() => session.takeOver()}>Go on without that tab</button>`
          : nothing
      }
    </section>`;
  }

  private renderProblem(problem: string) {
    return html`<section class="strip" aria-label="Problem">
      <p role="alert"><span class="wrong">▲</span> ${problem}</p>
      <button type="button" @click=${this.dismiss}>Understood</button>
    </section>`;
  }

  private renderPart(session: Session) {
    const { place, item } = this.route;
    const part = place === 'repairs' && item !== undefined ? 'story' : place;
    switch (this.parts.show(part)) {
      case 'ready':
        return this.renderPlace(session);
      case 'loading':
        return html`<p class="quiet" role="status">Opening ${NAMES[place]}.</p>`;
      case 'failed':
        return html`<section>
          <h1>${NAMES[place]}</h1>
          <p role="alert">
            <span class="wrong">▲</span> This part of the page could not be loaded from where the page came from. What
            is on the bench is as it was. Where trying again does not help, reload the page.
          </p>
          <button
            type="button"
            @click=${() => {
              this.parts.tryAgain(part);
            }}
          >
            Try again
          </button>
        </section>`;
    }
  }

  private renderPlace(session: Session) {
    const { route } = this;
    switch (route.place) {
      case 'shift':
        return html`<bt-shift-place .session=${session} .route=${route}></bt-shift-place>`;
      case 'readings':
        return html`<bt-readings-place .session=${session} .route=${route}></bt-readings-place>`;
      case 'repairs':
        return route.item === undefined
          ? html`<bt-repairs-place .session=${session} .route=${route}></bt-repairs-place>`
          : html`<bt-repair-story .session=${session} .repair=${route.item} .view=${route.view}></bt-repair-story>`;
      case 'bands':
        return html`<bt-bands-place .session=${session} .route=${route}></bt-bands-place>`;
      case 'families':
        return html`<bt-families-place .session=${session} .route=${route}></bt-families-place>`;
    }
  }

  override render() {
    const { session, route } = this;
    if (session === undefined) return nothing;
    const { importing, problem, waits } = session.state;
    return html`
      <header>
        <span class="name">Benchtally</span>
        <nav aria-label="Places">${PLACES.map((place) => this.renderLink(place, session.state))}</nav>
        ${this.renderBench(session)}
      </header>
      ${LIVE_WORK.includes(route.place) ? html`<bt-caution-line></bt-caution-line>` : nothing}
      ${importing === undefined ? nothing : this.renderProgress(session, importing)}
      ${waits === undefined ? this.renderElsewhere(session) : this.renderWaiting(session, waits)}
      ${problem === undefined ? nothing : this.renderProblem(problem)}
      <main tabindex="-1">${this.renderPart(session)}</main>
      ${
        this.dragging
          ? html`<div class="drop">
              <p>Let go to bring these files in.</p>
              <p class="quiet">Logs of readings, a table of repairs, a table of bands: CSV of any shape.</p>
            </div>`
          : nothing
      }
    `;
  }
}

/** To two digits, as a pace changes from moment to moment. */
function roundedPace(rowsPerSecond: number): number {
  return Number(rowsPerSecond.toPrecision(2));
}

function timeLeft(seconds: number): string {
  if (seconds < 60) return `about ${Math.max(1, Math.round(seconds))} s`;
  return `about ${Math.round(seconds / 60)} min`;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-app': App;
  }
}

import { LitElement, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import type { ImportProgress } from '../session/answers.ts';
import type { Session } from '../session/session.ts';
import { appStyles } from './app.styles.ts';
import './caution-line.ts';
import { followSession } from './controllers/session-controller.ts';
import { carriesFiles, droppedFiles } from './dropped-files.ts';
import './file-button.ts';
import './panels/bands-place.ts';
import './panels/families-place.ts';
import './panels/readings-place.ts';
import './panels/repair-story.ts';
import './panels/repairs-place.ts';
import './panels/shift-place.ts';
import { PLACES, hashOf, parseRoute, type Place, type Route } from './route.ts';
import { shared } from './styles/shared.styles.ts';
import { countOf, countText } from './words.ts';

const NAMES: Readonly<Record<Place, string>> = {
  shift: 'Shift',
  readings: 'Readings',
  repairs: 'Repairs',
  bands: 'Bands',
  families: 'Families',
};

/** Places that speak of work on boards under power. */
const LIVE_WORK: readonly Place[] = ['readings', 'repairs', 'bands'];

/** The whole page: its head, the place that the address names, and the drop of files anywhere. */
@customElement('bt-app')
export class App extends LitElement {
  static override styles = [shared, appStyles];

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

  private cancel(): void {
    this.session?.cancelImport();
  }

  private dismiss(): void {
    this.session?.dismissProblem();
  }

  private renderBench(session: Session) {
    const { summary, bench, decimalMark } = session.state;
    const own = bench === 'sample and own';
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
          : html`<button class="plain" type="button" @click=${this.startEmpty}>
              Start an empty bench${own ? ', without your files too' : ''}
            </button>`
      }
      <bt-file-button .session=${session}></bt-file-button>
    </div>`;
  }

  private renderProgress(session: Session, { file, fileNumber, files, bytes, totalBytes, rows }: ImportProgress) {
    return html`<section class="strip" aria-label="Import in progress">
      <p role="status">Reading ${file}, file ${fileNumber} of ${files}.</p>
      <progress aria-label="Share of this file that is read" max=${Math.max(1, totalBytes)} .value=${bytes}></progress>
      <span class="number">${countText(rows, session.state.decimalMark)} rows</span>
      <button type="button" @click=${this.cancel}>Cancel</button>
    </section>`;
  }

  private renderProblem(problem: string) {
    return html`<section class="strip" aria-label="Problem">
      <p role="alert"><span class="wrong">▲</span> ${problem}</p>
      <button type="button" @click=${this.dismiss}>Understood</button>
    </section>`;
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
          : html`<bt-repair-story .session=${session} .repair=${route.item}></bt-repair-story>`;
      case 'bands':
        return html`<bt-bands-place .session=${session} .route=${route}></bt-bands-place>`;
      case 'families':
        return html`<bt-families-place .session=${session} .route=${route}></bt-families-place>`;
    }
  }

  override render() {
    const { session, route } = this;
    if (session === undefined) return nothing;
    const { importing, problem } = session.state;
    return html`
      <header>
        <span class="name">Benchtally</span>
        <nav aria-label="Places">
          ${PLACES.map(
            (place) =>
              html`<a
                href=${hashOf(place)}
                data-text=${NAMES[place]}
                aria-current=${place === route.place ? 'page' : 'false'}
                >${NAMES[place]}</a
              >`,
          )}
        </nav>
        ${this.renderBench(session)}
      </header>
      ${LIVE_WORK.includes(route.place) ? html`<bt-caution-line></bt-caution-line>` : nothing}
      ${importing === undefined ? nothing : this.renderProgress(session, importing)}
      ${problem === undefined ? nothing : this.renderProblem(problem)}
      <main tabindex="-1">${this.renderPlace(session)}</main>
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

declare global {
  interface HTMLElementTagNameMap {
    'bt-app': App;
  }
}

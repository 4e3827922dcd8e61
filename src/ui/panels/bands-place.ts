import { LitElement, html, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { BandsOverview } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { readCheck, type Route } from '../route.ts';
import { saveFile } from '../save-file.ts';
import { shared } from '../styles/shared.styles.ts';
import './band-editor.ts';
import type { Outcome } from './band-outcome.ts';
import './band-outcome.ts';
import './bands-overview.ts';
import './bands-proposals.ts';
import './family-editor.ts';
import './meters-panel.ts';

/** What readings should be: the bands of all families, one check, proposals, families and meters, by the address. */
@customElement('bt-bands-place')
export class BandsPlace extends LitElement {
  static override styles = shared;

  private readonly overview = new AnswerController<BandsOverview>(this, () => ({
    key: this.revision,
    ask: (signal) => this.session.ask('bands', [], signal),
    keepsLast: true,
  }));

  private readonly making = new ChangeController(this);

  @state() private outcome: Outcome | undefined;

  @property({ attribute: false }) session!: Session;
  @property({ attribute: false }) route!: Route;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    const before = changed.get('route');
    if (before !== undefined && before.item !== this.route.item) this.outcome = undefined;
  }

  /** Tells one state of the bench from another. */
  private get revision(): string {
    return String(this.session.state.revision);
  }

  /** Another rule of known-good boards is a change as well, so that the one before is no more what undo takes back. */
  private forget(): void {
    this.outcome = undefined;
  }

  private take({ detail }: CustomEvent<Outcome>): void {
    this.outcome = detail;
    this.making.clear();
  }

  private async undo(): Promise<void> {
    const made = await this.making.make(() => this.session.ask('undo', []));
    if (made !== undefined)
      this.outcome = { what: 'Taken back: bands, families and meters are as they were before.', rejudged: made.result, undoable: false }; // prettier-ignore
  }

  private async save(): Promise<void> {
    await this.making.make(async () => {
      saveFile(new Blob([await this.session.ask('bandsText', [])], { type: 'text/csv' }), 'bands.csv');
    });
  }

  private renderOverview({ answer }: AnswerController<BandsOverview>) {
    return html`<h1>Bands</h1>
      ${
        answer.status === 'failed'
          ? html`<p class="wrong">${answer.reason}</p>`
          : answer.value === undefined
            ? html`<p class="quiet">Opening the bands.</p>`
            : html`<bt-bands-overview
                .overview=${answer.value}
                .family=${readCheck(this.route.query).family}
                .decimalMark=${this.session.state.decimalMark}
                @save-wanted=${this.save}
              ></bt-bands-overview>`
      }`;
  }

  private renderView() {
    const { session, revision } = this;
    const about = readCheck(this.route.query);
    const overview = valueOf(this.overview.answer);
    switch (this.route.item) {
      case 'check':
        return html`<bt-band-editor .session=${session} .about=${about} .revision=${revision}></bt-band-editor>`;
      case 'proposals':
        return html`<bt-bands-proposals
          .session=${session}
          .about=${about}
          .revision=${revision}
        ></bt-bands-proposals>`;
      case 'family':
        return overview === undefined
          ? html`<p class="quiet">Opening the families.</p>`
          : html`<bt-family-editor
              .session=${session}
              .families=${overview.families}
              .name=${about.family}
            ></bt-family-editor>`;
      case 'meters':
        return html`<bt-meters-panel .session=${session} .revision=${revision}></bt-meters-panel>`;
      default:
        return this.renderOverview(this.overview);
    }
  }

  override render() {
    const { outcome } = this;
    return html`<div @bench-changed=${this.take} @rule-changed=${this.forget}>
      ${
        outcome === undefined
          ? nothing
          : html`<bt-band-outcome
              .session=${this.session}
              .outcome=${outcome}
              @undo-wanted=${this.undo}
            ></bt-band-outcome>`
      }
      ${this.making.faultLine()} ${this.renderView()}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-bands-place': BandsPlace;
  }
}

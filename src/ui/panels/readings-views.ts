import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, query, state } from 'lit/decorators.js';
import { ifDefined } from 'lit/directives/if-defined.js';
import { errorText } from '../../domain/error-text.ts';
import type { KeptView } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController, valueOf } from '../controllers/answer-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { shared } from '../styles/shared.styles.ts';
import { readViewAddress } from './readings-address.ts';
import { readingsFormStyles } from './readings-form.styles.ts';
import { readingsViewsStyles } from './readings-views.styles.ts';

/** A longer name would not fit beside the others. */
const LONGEST_NAME = 80;

/**
 * Views of the readings that are kept under names: opens them by their addresses, keeps the present one, renames one, lets
 * one go.
 * @fires views-closed - the person is done
 */
@customElement('bt-readings-views')
export class ReadingsViews extends LitElement {
  static override styles = [shared, readingsFormStyles, readingsViewsStyles];

  private readonly views = new AnswerController<readonly KeptView[]>(this, () => {
    const { session } = this;
    return (
      session && {
        key: String(session.state.revision),
        ask: (signal) => session.ask('views', [], signal),
        keepsLast: true,
      }
    );
  });

  @query('input[name=kept]') private readonly input!: HTMLInputElement;

  /** The view whose name is being written anew. */
  @state() private renamed: string | undefined;
  /** What came of the last thing done. */
  @state() private said = '';
  @state() private isWrong = false;
  /** The view that was let go last, to be brought back. */
  @state() private gone: KeptView | undefined;

  @property({ attribute: false }) session?: Session;
  /** The address of what is shown, as it would be kept. */
  @property({ attribute: false }) address = '';

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  /** Moves the focus to the name to fill in. */
  override focus(): void {
    void this.updateComplete.then(() => {
      this.input.focus();
    });
  }

  protected override updated(changed: PropertyValues): void {
    if (changed.has('renamed') && this.renamed !== undefined)
      this.renderRoot.querySelector<HTMLInputElement>('input[name=renamed]')?.select();
  }

  private get known(): readonly KeptView[] {
    return valueOf(this.views.answer) ?? [];
  }

  private close(): void {
    this.dispatchEvent(new CustomEvent('views-closed'));
  }

  private onKey(event: KeyboardEvent): void {
    if (event.key !== 'Escape') return;
    event.preventDefault();
    if (this.renamed === undefined) this.close();
    else this.stopRenaming();
  }

  private say(text: string, isWrong = false): void {
    this.said = text;
    this.isWrong = isWrong;
  }

  /** Does something to the kept views, and says what came of it. @returns whether it was done */
  private async change(work: (session: Session) => Promise<unknown>, done: string): Promise<boolean> {
    if (this.session === undefined) return false;
    this.gone = undefined;
    try {
      await work(this.session);
      this.say(done);
      return true;
    } catch (error) {
      this.say(errorText(error), true);
      return false;
    }
  }

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const name = this.input.value.trim();
    if (name === '') {
      this.say('Give it a name.', true);
      this.input.focus();
      return;
    }
    const isThere = this.known.some((view) => view.name === name);
    const done = isThere ? `“${name}” is this view now.` : `“${name}” is kept.`;
    const view: KeptView = { name, address: this.address };
    if (await this.change((session) => session.ask('setView', [view]), done)) this.input.value = '';
  }

  private async rename(event: SubmitEvent, view: KeptView): Promise<void> {
    event.preventDefault();
    const input = (event.target as HTMLFormElement).elements.namedItem('renamed') as HTMLInputElement;
    const name = input.value.trim();
    const fault =
      name === ''
        ? 'Give it a name.'
        : name !== view.name && this.known.some((other) => other.name === name)
          ? 'Another view has this name.'
          : undefined;
    if (fault !== undefined) {
      this.say(fault, true);
      input.focus();
      return;
    }
    const work = async (session: Session): Promise<void> => {
      await session.ask('setView', [{ ...view, name }]);
      await session.ask('removeView', [view.name]);
    };
    if (name === view.name || (await this.change(work, `“${view.name}” is “${name}” now.`))) this.stopRenaming();
  }

  private stopRenaming(): void {
    this.renamed = undefined;
    this.input.focus();
  }

  private async letGo(view: KeptView): Promise<void> {
    if (!(await this.change((session) => session.ask('removeView', [view.name]), `“${view.name}” is let go.`))) return;
    this.gone = view;
    this.input.focus();
  }

  private async bringBack(view: KeptView): Promise<void> {
    await this.change((session) => session.ask('setView', [view]), `“${view.name}” is back.`);
    this.input.focus();
  }

  private renderView(view: KeptView) {
    const { name } = view;
    if (this.renamed === name)
      return html`<li>
        <form @submit=${(event: SubmitEvent) => this.rename(event, view)}>
          <label
            ><span class="spoken">new name of ${name}</span>
            <input type="text" name="renamed" maxlength=${LONGEST_NAME} .value=${name} aria-describedby="said"
          /></label>
          <button type="submit">Rename</button>
          <button type="button" @click=${this.stopRenaming}>Leave it</button>
        </form>
      </li>`;
    const { address, whole } = readViewAddress(view.address);
    return html`<li>
      <a href=${address} aria-current=${ifDefined(address === this.address ? 'true' : undefined)}>${name}</a>
      ${whole ? nothing : html`<span class="quiet">not all of it is understood here</span>`}
      <button
        class="plain"
        type="button"
        aria-label="rename ${name}"
        @click=${() => {
          this.renamed = name;
        }}
      >
        rename
      </button>
      <button class="plain" type="button" aria-label="let go of ${name}" @click=${() => this.letGo(view)}>
        let go
      </button>
    </li>`;
  }

  private renderViews() {
    const { answer } = this.views;
    if (answer.status === 'failed') return html`<p class="wrong">${answer.reason}</p>`;
    if (answer.value === undefined) return html`<p class="quiet">Opening the kept views.</p>`;
    if (answer.value.length === 0) return html`<p class="quiet">None yet.</p>`;
    return html`<ul>
      ${answer.value.map((view) => this.renderView(view))}
    </ul>`;
  }

  override render() {
    const { gone } = this;
    const keeps = this.session?.state.kept.keeps ?? false;
    return html`<fieldset @keydown=${this.onKey}>
      <legend>
        Views: columns, order, filters and groups under a
        name${keeps ? nothing : ', as long as the page is open: this bench is not kept'}
      </legend>
      ${this.renderViews()}
      <form @submit=${this.keep}>
        <label
          >keep this view as
          <input
            type="text"
            name="kept"
            maxlength=${LONGEST_NAME}
            aria-invalid=${this.isWrong && this.renamed === undefined}
            aria-describedby="said"
        /></label>
        <button type="submit">Keep</button>
        <button type="button" @click=${this.close}>Done</button>
        <span id="said" class=${this.isWrong ? 'wrong' : 'quiet'} role="status">${this.said}</span>
        ${
          gone === undefined
            ? nothing
            : html`<button class="plain" type="button" @click=${() => this.bringBack(gone)}>bring it back</button>`
        }
      </form>
    </fieldset>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-readings-views': ReadingsViews;
  }
}

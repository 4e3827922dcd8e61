import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { OUTCOMES, type Outcome } from '../../domain/repair.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { DraftController } from '../controllers/draft-controller.ts';
import { hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { dayText } from '../words.ts';
import { changedElsewhere } from './changed-elsewhere.ts';
import type { Repair } from './repair-answers.ts';
import { typedDay } from './repair-numbers.ts';

/** What is wrong, and with which field, where it is one's own. */
interface Fault {
  readonly field?: string;
  readonly sentence: string;
}

/** What each field of the form holds. */
type Texts = Readonly<Record<string, string>>;

const NO_SUCH_DAY = 'There is no such day: write it as 2026-03-14.';

/**
 * The bench's record of one repair, added or corrected by hand.
 * @fires repair-kept - when the bench has taken it; detail: its id
 */
@customElement('bt-repair-form')
export class RepairForm extends LitElement {
  static override styles = [
    shared,
    css`
      form {
        display: grid;
        grid-template-columns: max-content minmax(12rem, 28rem);
        gap: 0.5rem 1rem;
        align-items: baseline;
        margin: 0.75rem 0 1.5rem;
      }

      input,
      select {
        width: 100%;
      }

      input[type='date'] {
        min-height: 1.75rem;
        padding: 0.15rem 0.5rem;
        border: 1px solid var(--quiet);
        border-radius: 2px;
        background: var(--paper);
      }

      .ends {
        display: flex;
        align-items: baseline;
        gap: 1rem;
        grid-column: 2;
      }

      .whole {
        grid-column: 1 / -1;
      }

      [role='alert'] {
        grid-column: 2;
        margin: 0;
      }

      [aria-invalid='true'] {
        border-color: var(--wrong);
      }
    `,
  ];

  private readonly making = new ChangeController(this);
  private readonly texts = new DraftController<Texts>(this, () => ({
    subject: this.repair?.id ?? '',
    draft: textsOf(this.repair),
  }));

  /** What is wrong with what was typed, and at which field, where it is one's own. */
  @state() private fault: Fault | undefined;

  @property({ attribute: false }) session!: Session;
  /** The record as it stands; undefined where a repair is added. */
  @property({ attribute: false }) repair: Repair | undefined;

  private async keep(event: SubmitEvent): Promise<void> {
    event.preventDefault();
    const repair = this.read(this.texts.draft ?? {});
    this.making.clear();
    this.fault = 'sentence' in repair ? repair : undefined;
    if ('sentence' in repair) return;
    const isNew = this.repair === undefined;
    const made = await this.making.make(async () => {
      const fault = await this.session.ask('repairFault', [repair, isNew]);
      if (fault === undefined) await this.session.ask('setRepair', [repair, isNew]);
      return fault;
    });
    this.fault = made?.result;
    if (made === undefined || this.fault !== undefined) return;
    this.texts.saved();
    this.dispatchEvent(new CustomEvent<string>('repair-kept', { detail: repair.id }));
    location.hash = hashOf('repairs', repair.id);
  }

  /** The record as it is typed, or what is wrong with it. */
  private read(texts: Texts): Repair | Fault {
    const text = (name: string): string => texts[name]?.trim() ?? '';
    const received = typedDay(text('received'));
    const returned = typedDay(text('returned'));
    if (received === undefined) return { field: 'received', sentence: NO_SUCH_DAY };
    if (returned === undefined) return { field: 'returned', sentence: NO_SUCH_DAY };
    const comebackOf = text('comebackOf');
    const bench = text('bench');
    return {
      id: this.repair?.id ?? text('id'),
      family: text('family'),
      complaint: text('complaint'),
      received,
      returned,
      outcome: text('outcome') as Outcome,
      replaced: text('replaced').toUpperCase().split(/[\s,;]+/).filter((part) => part !== ''), // prettier-ignore
      ...(comebackOf === '' ? {} : { comebackOf }),
      ...(bench === '' ? {} : { bench }),
    };
  }

  private type(event: InputEvent): void {
    const entries = [...new FormData(event.currentTarget as HTMLFormElement)];
    this.texts.type(
      Object.fromEntries(entries.filter((entry): entry is [string, string] => typeof entry[1] === 'string')),
    );
  }

  private renderText(name: string, label: string, type: 'text' | 'date' = 'text') {
    return html`<label for=${name}>${label}</label>
      <input
        id=${name}
        name=${name}
        type=${type}
        .value=${this.texts.draft?.[name] ?? ''}
        autocomplete="off"
        aria-invalid=${this.fault?.field === name ? 'true' : 'false'}
        aria-describedby=${this.fault?.field === name ? 'fault' : nothing}
      />
      ${this.renderFault(name)}`;
  }

  /** The sentence about one field, below it; without a name, the one about none. */
  private renderFault(name?: string) {
    if (this.fault === undefined || this.fault.field !== name) return nothing;
    return html`<p id="fault" role="alert"><span class="wrong">▲</span> ${this.fault.sentence}</p>`;
  }

  override render() {
    const { repair } = this;
    const back = repair === undefined ? hashOf('repairs') : hashOf('repairs', repair.id);
    return html`<form
      aria-label=${repair === undefined ? 'Add a repair' : `Record of ${repair.id}`}
      @submit=${(event: SubmitEvent) => void this.keep(event)}
      @input=${this.type}
    >
      ${repair === undefined ? this.renderText('id', 'Repair') : nothing} ${this.renderText('family', 'Board family')}
      ${this.renderText('complaint', 'Complaint')} ${this.renderText('received', 'Received', 'date')}
      ${this.renderText('returned', 'Returned', 'date')}
      <label for="outcome">Outcome</label>
      <select
        id="outcome"
        name="outcome"
        aria-invalid=${this.fault?.field === 'outcome' ? 'true' : 'false'}
        aria-describedby=${this.fault?.field === 'outcome' ? 'fault' : nothing}
      >
        ${OUTCOMES.map((outcome) => html`<option .selected=${outcome === this.texts.draft?.outcome}>${outcome}</option>`)}
      </select>
      ${this.renderFault('outcome')} ${this.renderText('replaced', 'Replaced parts')}
      ${this.renderText('comebackOf', 'Comeback of')} ${this.renderText('bench', 'Bench')} ${this.renderFault()}
      <div class="whole">
        ${this.making.faultLine()}
        ${
          repair === undefined
            ? nothing
            : changedElsewhere(this.session, this.texts, repair.id, { kind: 'repair', repair: repair.id })
        }
      </div>
      <div class="ends">
        <button class="main" type="submit" ?disabled=${this.making.isBusy || this.texts.isOutdated}>Keep</button>
        <a href=${back}>Leave it as it was</a>
      </div>
    </form>`;
  }
}

function textsOf(repair: Repair | undefined): Texts {
  return {
    ...(repair === undefined && { id: '' }),
    family: repair?.family ?? '',
    complaint: repair?.complaint ?? '',
    received: dayText(repair?.received ?? NaN),
    returned: dayText(repair?.returned ?? NaN),
    outcome: repair?.outcome ?? 'open',
    replaced: repair?.replaced.join(' ') ?? '',
    comebackOf: repair?.comebackOf ?? '',
    bench: repair?.bench ?? '',
  };
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-repair-form': RepairForm;
  }
}

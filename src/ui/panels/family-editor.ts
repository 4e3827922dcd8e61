import { html, LitElement, nothing, type PropertyValues } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import { ROLES, type Family, type Role } from '../../domain/family.ts';
import type { Session } from '../../session/session.ts';
import { ChangeController } from '../controllers/change-controller.ts';
import { DraftController } from '../controllers/draft-controller.ts';
import { followSession } from '../controllers/session-controller.ts';
import { bandsHash, hashOf } from '../route.ts';
import { shared } from '../styles/shared.styles.ts';
import { countOf } from '../words.ts';
import { benchChanged } from './band-outcome.ts';
import { changedElsewhere } from './changed-elsewhere.ts';
import {
  EMPTY_FAMILY,
  EMPTY_PART,
  EMPTY_POINT,
  familyDraftOf,
  familyNotes,
  readFamily,
  renamedPoint,
  whatGoes,
  type FamilyDraft,
  type PartDraft,
  type PointDraft,
} from './family-editor-draft.ts';
import { tableFormStyles } from './family-editor.styles.ts';

/**
 * Points and parts of a board family: a new one from nothing or from a copy, or one that is known.
 * @fires bench-changed - detail: Outcome
 */
@customElement('bt-family-editor')
export class FamilyEditor extends LitElement {
  static override styles = [shared, tableFormStyles];

  private readonly making = new ChangeController(this);
  private readonly drafts = new DraftController<FamilyDraft>(this, () => {
    const known = this.known;
    const draft = known === undefined ? { ...EMPTY_FAMILY, name: this.name ?? '' } : familyDraftOf(known, known.name);
    return { subject: this.name ?? '', draft };
  });

  @state() private saved: string | undefined;
  /** Points and parts with readings that a draft would take away, and the family without them. */
  @state() private asked: { readonly family: Family; readonly gone: readonly string[] } | undefined;

  @property({ attribute: false }) session!: Session;
  /** The families as they are stored. */
  @property({ attribute: false }) families: readonly Family[] = [];
  /** The known one that is edited; undefined for a new one. */
  @property({ attribute: false }) name: string | undefined;

  constructor() {
    super();
    followSession(this, () => this.session);
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('name')) return;
    this.making.clear();
    this.saved = undefined;
    this.asked = undefined;
  }

  /** The family that is edited, as it is stored: by its name, or the new one that was saved from here. */
  private get known(): Family | undefined {
    const name = this.name ?? this.saved;
    return this.families.find((family) => family.name === name);
  }

  private get isNew(): boolean {
    return this.known === undefined;
  }

  private get draft(): FamilyDraft {
    return this.drafts.draft ?? EMPTY_FAMILY;
  }

  private change(changes: Partial<FamilyDraft>): void {
    this.drafts.type({ ...this.draft, ...changes });
    this.asked = undefined;
    this.making.clear();
  }

  private changePoint(at: number, change: (point: PointDraft) => PointDraft): void {
    this.change({ points: this.draft.points.map((point, index) => (index === at ? change(point) : point)) });
  }

  private changePart(at: number, changes: Partial<PartDraft>): void {
    this.change({ parts: this.draft.parts.map((part, index) => (index === at ? { ...part, ...changes } : part)) });
  }

  private typeName(event: Event): void {
    this.change({ name: textIn(event) });
  }

  private tickBoost(event: Event): void {
    this.change({ boost: (event.target as HTMLInputElement).checked });
  }

  private copy(event: Event): void {
    const family = this.families.find(({ name }) => name === textIn(event));
    if (family !== undefined) this.drafts.type(familyDraftOf(family, this.draft.name));
  }

  private async addRow(kind: 'points' | 'parts'): Promise<void> {
    if (kind === 'points') this.change({ points: [...this.draft.points, EMPTY_POINT] });
    else this.change({ parts: [...this.draft.parts, EMPTY_PART] });
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>(`#${kind}-table tbody tr:last-child input`)?.focus();
  }

  private async save(): Promise<void> {
    const read = readFamily(this.draft);
    if ('fault' in read) {
      this.making.refuse(read.fault);
      return;
    }
    const { family } = read;
    if (this.isNew && this.families.some(({ name }) => name === family.name)) {
      this.making.refuse(`The family ${family.name} is there already: choose another name, or edit that one.`);
      return;
    }
    const { known } = this;
    const going = known && (await this.making.make(() => this.readingsOf(known.name)));
    if (known !== undefined && going === undefined) return;
    const gone = known === undefined || going === undefined ? [] : whatGoes(known, family, going.result, this.mark);
    if (gone.length > 0) await this.ask({ family, gone });
    else await this.keep(family);
  }

  /** How many readings each point of a family has. */
  private async readingsOf(family: string): Promise<ReadonlyMap<string, number>> {
    const query = { filters: [{ field: 'family', oneOf: [family] }], sort: [] } as const;
    const points = await this.session.ask('facet', [query, 'point']);
    return new Map(points.map(({ value, count }) => [value, count]));
  }

  private async ask(asked: NonNullable<typeof this.asked>): Promise<void> {
    this.asked = asked;
    await this.updateComplete;
    this.renderRoot.querySelector<HTMLElement>('[data-keep]')?.focus();
  }

  private async keep(family: Family): Promise<void> {
    this.asked = undefined;
    const made = await this.making.make(() => this.session.ask('setFamily', [family]));
    if (made === undefined) return;
    this.drafts.saved();
    this.saved = family.name;
    const what = `${family.name} has ${countOf(family.points.length, 'test point', this.mark)} and ${countOf(family.parts.length, 'part', this.mark)} now.`;
    this.dispatchEvent(benchChanged(what));
  }

  private leaveAsked(): void {
    this.asked = undefined;
  }

  private get mark() {
    return this.session.state.decimalMark;
  }

  private renderPoint(point: PointDraft, at: number) {
    const place = point.name.trim() === '' ? `point ${at + 1}` : point.name;
    return html`<tr>
      ${textCell(`Name of point ${at + 1}`, point.name, 'long', (name) => {
        this.changePoint(at, (one) => renamedPoint(one, name));
      })}
      <td>
        <select
          aria-label="Role of ${place}"
          @change=${(event: Event) => {
            this.changePoint(at, (one) => ({ ...one, role: textIn(event) as Role }));
          }}
        >
          ${ROLES.map((role) => html`<option value=${role} .selected=${role === point.role}>${role}</option>`)}
        </select>
      </td>
      ${textCell(`Part of ${place}`, point.part, 'short', (part) => {
        this.changePoint(at, (one) => ({ ...one, part }));
      })}
      ${textCell(`Rail of ${place}`, point.rail, 'short', (rail) => {
        this.changePoint(at, (one) => ({ ...one, rail }));
      })}
      ${removeCell(place, () => {
        this.change({ points: this.draft.points.filter((_, index) => index !== at) });
      })}
    </tr>`;
  }

  private renderPart(part: PartDraft, at: number) {
    const place = part.designator.trim() === '' ? `part ${at + 1}` : part.designator;
    const field = (name: keyof PartDraft, label: string, width: CellWidth) =>
      textCell(label, part[name], width, (text) => {
        this.changePart(at, { [name]: text });
      });
    return html`<tr>
      ${field('designator', `Designator of part ${at + 1}`, 'short')}
      ${field('first', `First node of ${place}`, 'long')} ${field('second', `Second node of ${place}`, 'long')}
      ${removeCell(place, () => {
        this.change({ parts: this.draft.parts.filter((_, index) => index !== at) });
      })}
    </tr>`;
  }

  private renderSheets() {
    const heads = (names: readonly string[]) =>
      html`<tr>
        ${names.map((name) => html`<th scope="col">${name}</th>`)}
        <th scope="col"><span class="spoken">remove</span></th>
      </tr>`;
    return html`<div class="sheets">
      <section aria-labelledby="points">
        <h2 id="points">Where do probes go?</h2>
        <p class="quiet">Each point, red lead first: Q1 D→S and Q1 S→D are two. Points of one rail must agree.</p>
        <div class="sideways">
          <table id="points-table" aria-labelledby="points">
            <thead>
              ${heads(['point', 'role', 'part', 'rail'])}
            </thead>
            <tbody>
              ${this.draft.points.map((point, at) => this.renderPoint(point, at))}
            </tbody>
          </table>
        </div>
        <p><button type="button" @click=${() => this.addRow('points')}>Add a point</button></p>
      </section>
      <section aria-labelledby="parts">
        <h2 id="parts">Across which nodes does each part sit?</h2>
        <p class="quiet">
          Parts across the same two nodes mask each other in circuit; the nodes’ order does not matter.
        </p>
        <div class="sideways">
          <table id="parts-table" aria-labelledby="parts">
            <thead>
              ${heads(['part', 'one node', 'other node'])}
            </thead>
            <tbody>
              ${this.draft.parts.map((part, at) => this.renderPart(part, at))}
            </tbody>
          </table>
        </div>
        <p><button type="button" @click=${() => this.addRow('parts')}>Add a part</button></p>
      </section>
    </div>`;
  }

  private renderHeading() {
    const { draft, isNew } = this;
    const copy = html`<label
      >copy of
      <select @change=${this.copy}>
        <option value="">none</option>
        ${this.families.map(({ name }) => html`<option value=${name}>${name}</option>`)}
      </select></label
    >`;
    return html`<div class="heading">
      ${
        isNew
          ? html`<label
                >name <input type="text" autocomplete="off" .value=${draft.name} @input=${this.typeName}
              /></label>
              ${this.families.length === 0 ? nothing : copy}`
          : nothing
      }
      <label
        ><input type="checkbox" .checked=${draft.boost} @change=${this.tickBoost} /> a boost stage lifts the bulk
        voltage</label
      >
    </div>`;
  }

  /** What would go, before it goes. */
  private renderAsked() {
    const { asked } = this;
    if (asked === undefined) return nothing;
    return html`<section aria-labelledby="going">
      <h2 id="going">Save ${asked.family.name} without what has readings?</h2>
      <ul>
        ${asked.gone.map((one) => html`<li>${one}</li>`)}
      </ul>
      <p>The readings stay on the bench, but the family no longer says where they were taken.</p>
      <button type="button" @click=${() => this.keep(asked.family)}>Save without them</button>
      <button type="button" data-keep @click=${this.leaveAsked}>Back to the family</button>
    </section>`;
  }

  private renderNext(family: string) {
    return html`<p>
      Next: <a href=${hashOf('shift')}>bring in</a> the logs of boards known to be good, then look at the
      <a href=${bandsHash('proposals', { family })}>bands proposed for ${family}</a>.
    </p>`;
  }

  override render() {
    const { draft } = this;
    const notes = familyNotes(draft);
    const family = this.isNew ? this.saved : this.name;
    return html`<p class="crumbs">
        <a href=${bandsHash()}>Bands</a
        >${this.isNew || this.name === undefined ? nothing : html` · <a href=${bandsHash(undefined, { family: this.name })}>${this.name}</a>`}
      </p>
      <h1>${this.isNew ? 'A new family' : `Points and parts of ${this.name ?? ''}`}</h1>
      ${this.renderHeading()} ${this.renderSheets()}
      ${
        notes.length === 0
          ? nothing
          : html`<ul class="notes" aria-label="What follows from it">
              ${notes.map((note) => html`<li>${note}</li>`)}
            </ul>`
      }
      ${changedElsewhere(this.session, this.drafts, this.name ?? draft.name, { kind: 'family', family: this.known?.name ?? '' })}
      ${this.renderAsked()} ${this.making.faultLine()}
      <div class="actions">
        <button
          class="main"
          type="button"
          ?disabled=${this.making.isBusy || this.drafts.isOutdated}
          @click=${this.save}
        >
          Save the family
        </button>
      </div>
      ${family === undefined ? nothing : this.renderNext(family)}`;
  }
}

type CellWidth = 'short' | 'long';

function textCell(label: string, value: string, width: CellWidth, typed: (text: string) => void) {
  return html`<td class=${width}>
    <input
      type="text"
      aria-label=${label}
      .value=${value}
      @input=${(event: Event) => {
        typed(textIn(event));
      }}
    />
  </td>`;
}

function removeCell(place: string, remove: () => void) {
  return html`<td>
    <button class="plain" type="button" aria-label="Remove ${place}" @click=${remove}>Remove</button>
  </td>`;
}

function textIn(event: Event): string {
  return (event.target as HTMLInputElement | HTMLSelectElement).value;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-family-editor': FamilyEditor;
  }
}

import { LitElement, html, nothing } from 'lit';
import { customElement, property, state } from 'lit/decorators.js';
import type { ColumnUse, Field, PreviewCell } from '../../domain/file-plan.ts';
import { prefixSymbol } from '../../domain/prefix.ts';
import { MODES, MODE_UNITS, STAGES, type Mode, type Stage } from '../../domain/reading.ts';
import { fieldsOf, withField, withReadingUse, type ReadingUse } from '../../session/plan-edits.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { countText } from '../words.ts';
import { PlanChanged } from './file-plan-events.ts';
import { filePlanRowsStyles } from './file-plan-rows.styles.ts';

/** Columns that are shown at once, and how many more each time. */
const COLUMNS = 30;
const PREFIXES = [6, 3, 0, -3, -6, -9, -12] as const;

/**
 * Each column of a file with what it is read as and why, over the file's first rows with each cell as it will be read.
 * @fires plan-changed - a column is to be read as something else
 */
@customElement('bt-file-plan-rows')
export class FilePlanRows extends LitElement {
  static override styles = [shared, filePlanRowsStyles];

  @state() private shown = COLUMNS;

  @property({ attribute: false }) waiting!: WaitingFile;

  /** Moves the focus to the first column that deserves a look. */
  override focus(): void {
    const { columns } = this.waiting.plan;
    const doubtful = columns.findIndex((use) => use.doubtful);
    this.renderRoot.querySelector<HTMLElement>(`#use-${Math.max(0, doubtful)}`)?.focus();
  }

  private showMore(): void {
    this.shown += COLUMNS;
  }

  private changeField(event: Event): void {
    const { value, dataset } = event.target as HTMLSelectElement;
    this.change((plan) => withField(plan, Number(dataset.column), value as Field));
  }

  private changeUse(event: Event): void {
    const { name, value, dataset } = event.target as HTMLSelectElement;
    const told = value.trim() === '' ? undefined : value.trim();
    const changes: Partial<Record<keyof ReadingUse, ReadingUse[keyof ReadingUse]>> =
      name === 'prefix' ? { prefix: told === undefined ? undefined : Number(told) } : { [name]: told };
    this.change((plan) => withReadingUse(plan, Number(dataset.column), changes as ReadingUse));
  }

  private change(change: PlanChanged['change']): void {
    this.dispatchEvent(new PlanChanged(change, 'columns'));
  }

  private has(field: Field): boolean {
    return this.waiting.plan.columns.some((use) => use.field === field);
  }

  /** What of a column of readings no other column says. */
  private openOf(use: ColumnUse): readonly (keyof ReadingUse)[] {
    const isOneOfMany = this.waiting.plan.columns.filter(({ field }) => field === 'reading').length > 1;
    return (['point', 'mode', 'prefix', 'stage'] as const).filter((key) => {
      if (key === 'prefix') return !this.has('unit');
      return !this.has(key) && (isOneOfMany || use[key] !== undefined);
    });
  }

  private renderOption(value: string | number, text: string, chosen: string | number | undefined) {
    return html`<option value=${value} .selected=${value === chosen}>${text}</option>`;
  }

  private renderUse(use: ColumnUse, at: number, key: keyof ReadingUse, name: string) {
    const id = `${key}-${at}`;
    const label = html`<label for=${id}
      >${key === 'prefix' ? 'in' : key}<span class="spoken"> of ${name}</span></label
    >`;
    if (key === 'point') {
      return html`${label}<input
          id=${id}
          name=${key}
          type="text"
          data-column=${at}
          autocomplete="off"
          .value=${use.point ?? ''}
          @change=${this.changeUse}
        />`;
    }
    const mode: Mode | undefined = use.mode ?? this.waiting.plan.given.mode;
    const unit = mode === undefined ? '' : MODE_UNITS[mode];
    const options: readonly (readonly [Mode | Stage | number, string])[] =
      key === 'mode'
        ? MODES.map((one) => [one, `${one} (${MODE_UNITS[one]})`])
        : key === 'stage'
          ? STAGES.map((one) => [one, one])
          : PREFIXES.map((power) => [power, `${prefixSymbol(power)}${unit}` || 'no prefix']);
    const none = key === 'prefix' ? 'as shown' : key === 'mode' ? 'as the unit says' : 'as stated above';
    return html`${label}<select id=${id} name=${key} data-column=${at} @change=${this.changeUse}>
        ${this.renderOption('', none, use[key] === undefined ? '' : undefined)}
        ${options.map(([value, text]) => this.renderOption(value, text, use[key]))}
      </select>`;
  }

  private renderColumn(use: ColumnUse, at: number) {
    const { plan } = this.waiting;
    const name = nameOf(use, at);
    const fields = fieldsOf(plan.shape);
    const open = use.field === 'reading' ? this.openOf(use) : [];
    return html`<td>
      <select
        id=${`use-${at}`}
        data-column=${at}
        aria-label=${`${name} is read as`}
        aria-describedby=${`why-${at}`}
        @change=${this.changeField}
      >
        ${fields.map((field) => this.renderOption(field, field === 'ignored' ? 'left out' : field, use.field))}
      </select>
      <span class="why" id=${`why-${at}`}>${use.doubtful ? html`<b>◇ doubtful:</b> ` : nothing}${use.reason}</span>
      ${open.length === 0 ? nothing : html`<div class="more">${open.map((key) => this.renderUse(use, at, key, name))}</div>`}
    </td>`;
  }

  private renderCell(cell: PreviewCell | undefined, use: ColumnUse) {
    if (cell === undefined) return html`<td></td>`;
    const { text, read, doubtful } = cell;
    if (use.field === 'ignored') return html`<td class="ignored"><span class="cell">${text}</span></td>`;
    const own = html`<span class="cell">${text}</span>`;
    const width = use.field === 'time' ? 'moment' : '';
    if (!doubtful && read === text.trim()) return html`<td class=${width}>${own}</td>`;
    if (!doubtful)
      return html`<td class=${width}>${own}<span class="read">→ ${read === '' ? 'nothing' : read}</span></td>`;
    return html`<td>
      ${own}<span class="read doubt"
        ><span aria-hidden="true">◇</span><span class="spoken">doubtful:</span> ${read}</span
      >
    </td>`;
  }

  private renderRows(columns: readonly ColumnUse[]) {
    const { preview, plan } = this.waiting;
    return preview?.rows.map(({ line, cells }) => {
      // Of a table that is not known yet, nothing can be said to be wrong.
      const problem = plan.shape === 'unknown' ? undefined : preview.problems.find((one) => one.line === line);
      return html`<tr class=${problem === undefined ? '' : 'aside'}>
          <th scope="row" class="number">${line}</th>
          ${columns.map((use, at) => this.renderCell(cells[at], use))}
        </tr>
        ${
          problem === undefined
            ? nothing
            : html`<tr>
                <td></td>
                <td class="reason" colspan=${Math.max(1, columns.length)}>
                  <span class="wrong">▲ set aside:</span> ${problem.reason}
                </td>
              </tr>`
        }`;
    });
  }

  override render() {
    const { plan, preview, name } = this.waiting;
    const columns = plan.columns.slice(0, this.shown);
    const more = plan.columns.length - columns.length;
    return html`<div class="sideways">
        <table aria-label=${`The first rows of ${name}, as they will be read`}>
          <thead>
            <tr>
              <th scope="col" class="number">line</th>
              ${columns.map((use, at) => html`<th scope="col">${nameOf(use, at)}</th>`)}
            </tr>
          </thead>
          <tbody>
            <tr class="use">
              <th scope="row">is read as</th>
              ${columns.map((use, at) => this.renderColumn(use, at))}
            </tr>
            ${this.renderRows(columns)}
          </tbody>
        </table>
      </div>
      ${preview === undefined ? html`<p class="quiet">Trying it on the first rows.</p>` : nothing}
      ${
        more > 0
          ? html`<p>
              ${countText(more, this.waiting.plan.decimalMark)} more columns are not shown.
              <button class="plain" type="button" @click=${this.showMore}>Show more columns</button>
            </p>`
          : nothing
      }`;
  }
}

function nameOf(use: ColumnUse, at: number): string {
  return use.header === '' ? `column ${at + 1}` : use.header;
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-rows': FilePlanRows;
  }
}

import { LitElement, css, html, nothing } from 'lit';
import { customElement, property, query } from 'lit/decorators.js';
import {
  DATE_ORDERS,
  ENCODINGS,
  SEPARATORS,
  type DateOrder,
  type Encoding,
  type Separator,
} from '../../domain/file-plan.ts';
import type { Shape } from '../../domain/import-record.ts';
import { withHeader, withShape } from '../../session/plan-edits.ts';
import type { WaitingFile } from '../../session/waiting-file.ts';
import { shared } from '../styles/shared.styles.ts';
import { ChoicesChanged, PlanChanged } from './file-plan-events.ts';
import { ENCODING_NAMES, MARK_NAMES, ORDER_NAMES, SEPARATOR_NAMES, SHAPE_NAMES, lineText } from './file-plan-text.ts';

const SHAPES = ['readings', 'repairs', 'bands', 'meters'] as const;
const MARKS = ['.', ','] as const;

/**
 * How the file as a whole is read, each with why, and each changeable.
 * @fires plan-changed - another kind of table, header, decimal mark or order of dates was chosen
 * @fires choices-changed - another encoding or separator was chosen
 */
@customElement('bt-file-plan-marks')
export class FilePlanMarks extends LitElement {
  static override styles = [
    shared,
    css`
      .marks {
        display: flex;
        flex-wrap: wrap;
        gap: 0.5rem 1.25rem;
      }

      .marks > div {
        display: grid;
        align-content: start;
        gap: 0.125rem;
      }

      label,
      .why {
        font-size: var(--small);
      }

      .why {
        color: var(--quiet);
      }

      select[name='header'] {
        width: 13rem;
      }

      .units {
        display: flex;
        align-items: center;
        gap: 0.375rem;
        min-height: 1.75rem;
        font-size: 1rem;
      }
    `,
  ];

  @query('#encoding') private readonly encoding!: HTMLElement | null;

  @property({ attribute: false }) waiting!: WaitingFile;

  override focus(): void {
    this.encoding?.focus();
  }

  private change(event: Event): void {
    const { lines } = this.waiting;
    const { name, value, checked } = event.target as HTMLSelectElement & HTMLInputElement;
    switch (name) {
      case 'encoding':
        this.dispatchEvent(new ChoicesChanged({ encoding: value as Encoding }));
        break;
      case 'separator':
        this.dispatchEvent(new ChoicesChanged({ separator: value as Separator }));
        break;
      case 'shape':
        this.dispatchEvent(new PlanChanged((plan) => withShape(plan, value as Shape), 'columns'));
        break;
      case 'header': {
        const cells = lines.find(({ line }) => line === Number(value))?.cells ?? [];
        this.dispatchEvent(new PlanChanged((plan) => withHeader(plan, Number(value), cells)));
        break;
      }
      case 'units':
        this.dispatchEvent(new PlanChanged((plan) => ({ ...plan, unitsLine: checked })));
        break;
      case 'mark':
        this.dispatchEvent(
          new PlanChanged((plan) => ({ ...plan, decimalMark: value === ',' ? ',' : '.' }), 'decimal mark'),
        );
        break;
      case 'order':
        this.dispatchEvent(new PlanChanged((plan) => ({ ...plan, dateOrder: value as DateOrder }), 'date order'));
        break;
    }
  }

  /** Why a mark is as it is; one that is asked about says so. */
  private why(about: 'decimal mark' | 'date order', guessed: string): string {
    const { plan, answered } = this.waiting;
    if (answered.includes(about)) return 'as you say';
    return plan.questions.some((question) => question.about === about) ? 'asked above' : guessed;
  }

  private renderChoice(
    name: string,
    label: string,
    values: readonly string[],
    names: Readonly<Record<string, string>>,
    chosen: string,
    why: string,
  ) {
    return html`<div>
      <label for=${name}>${label} <span class="why">${why}</span></label>
      <select id=${name} name=${name}>
        ${values.map((value) => html`<option .value=${value} .selected=${value === chosen}>${names[value]}</option>`)}
      </select>
    </div>`;
  }

  private renderHeader() {
    const { plan, lines } = this.waiting;
    const isListed = plan.headerLine === 0 || lines.some(({ line }) => line === plan.headerLine);
    const own = { line: plan.headerLine, cells: plan.columns.map((use) => use.header) };
    const all = isListed ? lines : [...lines, own].sort((a, b) => a.line - b.line);
    return html`<div>
        <label for="header">header <span class="why">above the numbers</span></label>
        <select id="header" name="header">
          <option value="0" .selected=${plan.headerLine === 0}>none: data from line 1</option>
          ${all.map(
            (line) =>
              html`<option value=${line.line} .selected=${line.line === plan.headerLine}>${lineText(line)}</option>`,
          )}
        </select>
      </div>
      ${
        plan.headerLine === 0
          ? nothing
          : html`<div>
              <span class="why">and under it</span>
              <label class="units"
                ><input type="checkbox" name="units" .checked=${plan.unitsLine} /> a line of units</label
              >
            </div>`
      }`;
  }

  override render() {
    const { plan, choices } = this.waiting;
    const width = plan.columns.length;
    const shapes: readonly Shape[] = plan.shape === 'unknown' ? ['unknown', ...SHAPES] : SHAPES;
    return html`<div class="marks" role="group" aria-label="How the file as a whole is read" @change=${this.change}>
      ${this.renderChoice('encoding', 'encoding', ENCODINGS, ENCODING_NAMES, plan.encoding, choices.encoding === undefined ? 'from its bytes' : 'as you say')}
      ${this.renderChoice(
        'separator',
        'separator',
        SEPARATORS,
        SEPARATOR_NAMES,
        plan.separator,
        `${width} ${width === 1 ? 'column' : 'columns'}`,
      )}
      ${this.renderChoice('shape', 'holds', shapes, SHAPE_NAMES, plan.shape, 'from its columns')} ${this.renderHeader()}
      ${this.renderChoice('mark', 'decimal mark', MARKS, MARK_NAMES, plan.decimalMark, this.why('decimal mark', 'from its numbers'))}
      ${this.renderChoice('order', 'dates', DATE_ORDERS, ORDER_NAMES, plan.dateOrder, this.why('date order', 'from its dates'))}
    </div>`;
  }
}

declare global {
  interface HTMLElementTagNameMap {
    'bt-file-plan-marks': FilePlanMarks;
  }
}

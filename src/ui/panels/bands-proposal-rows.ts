import { html, nothing, type TemplateResult } from 'lit';
import type { Band } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { expectationText, limitText } from '../band-text.ts';
import { bandsHash, readingsHash } from '../route.ts';
import { countOf, countText } from '../words.ts';
import type { LearningSettings, Proposal, ProposalLine } from '../../session/answers.ts';
import { SIDES_WORDS } from './band-learning.ts';
import { methodText, normalityText, numberText, sharePercent, trialText } from './band-words.ts';

/** The board's marking as typed, to hold until there are boards enough. */
export interface Marking {
  readonly nominal: string;
  readonly percent: string;
}

/** What the rows of proposals show beside the proposals, and whom they tell what the person does. */
export interface RowsContext {
  readonly mark: DecimalMark;
  readonly sides: (check: Check) => LearningSettings['sides'];
  readonly isTicked: (check: Check) => boolean;
  readonly tick: (check: Check, ticked: boolean) => void;
  readonly keep: (row: number, kept: boolean) => void;
  readonly chooseSides: (check: Check, sides: LearningSettings['sides']) => void;
  readonly accept: (bands: readonly Band[]) => void;
  readonly marking: (check: Check) => Marking;
  readonly typeMarking: (check: Check, marking: Partial<Marking>) => void;
  readonly acceptMarking: (check: Check) => void;
  /** Columns of the table. */
  readonly columns: number;
}

/** One proposal as rows of the table: what is proposed, and below it what there is to know about it. */
export function proposalRows(line: ProposalLine, context: RowsContext): TemplateResult {
  const { check, readings, present, proposal } = line;
  const { mark } = context;
  const unit = MODE_UNITS[check.mode];
  const name = `${check.point}, ${check.stage}, ${check.mode}`;
  const notes = notesOf(line, context);
  const head = html`<th scope="row">
    <a href=${bandsHash('check', check)}>${check.point}</a><br /><span class="quiet"
      >${check.stage}, ${check.mode}</span
    >
  </th>`;
  const presentCell = html`<td class="wide">
    ${
      present === undefined
        ? html`<span class="quiet">none</span>`
        : html`${expectationText(present.band.expects, unit, mark)}<br />
            <span class="quiet"
              >stopped ${shortTrial(present.trial.goodStopped, mark)}, through
              ${shortTrial(present.trial.badLetThrough, mark)}</span
            >`
    }
  </td>`;
  const first =
    proposal === undefined
      ? html`<tr class="main ${notes.length > 0 ? 'open' : ''}">
          <td></td>
          ${head}
          <td class="quiet">none</td>
          <td class="number">${countText(readings, mark)}</td>
          <td class="quiet" colspan="3"></td>
          ${presentCell}
          <td></td>
        </tr>`
      : html`<tr class="main ${notes.length > 0 ? 'open' : ''}">
          <td>
            <input
              type="checkbox"
              aria-label="Tick ${name}"
              .checked=${context.isTicked(check)}
              @change=${(event: Event) => {
                context.tick(check, (event.target as HTMLInputElement).checked);
              }}
            />
          </td>
          ${head}
          <td class="wide">${expectationText(proposal.band.expects, unit, mark)}</td>
          <td class="number">${countCell(proposal, mark)}</td>
          <td class="method">${methodCell(proposal, check, context, name)}</td>
          <td class="number">${trialCell(proposal.trial.goodStopped, mark)}</td>
          <td class="number">${trialCell(proposal.trial.badLetThrough, mark)}</td>
          ${presentCell}
          <td>
            <button
              type="button"
              aria-label="Accept ${name}"
              @click=${() => {
                context.accept([proposal.band]);
              }}
            >
              Accept
            </button>
          </td>
        </tr>`;
  if (notes.length === 0) return first;
  return html`${first}
    <tr>
      <td></td>
      <td class="notes" colspan=${context.columns - 1}>${notes}</td>
    </tr>`;
}

function shortTrial({ count, of }: Proposal['trial']['goodStopped'], mark: DecimalMark): string {
  return `${countText(count, mark)}/${countText(of, mark)}`;
}

function trialCell(share: Proposal['trial']['goodStopped'], mark: DecimalMark) {
  const [counts = '', interval] = trialText(share, mark).split(' (');
  return html`${counts}${interval === undefined ? nothing : html`<br /><span class="quiet">${interval.replace(')', '')}</span>`}`;
}

function countCell({ count, overRange, removed }: Proposal, mark: DecimalMark) {
  const share = overRange === 0 ? nothing : html`<br /><span class="quiet">+ ${countText(overRange, mark)} over range, ${sharePercent(overRange / (count + overRange), mark)}&nbsp;%</span>`; // prettier-ignore
  const gone = removed.filter(({ kept }) => !kept).length;
  const screened = gone === 0 ? nothing : html`<br /><span class="quiet">− ${countText(gone, mark)} screened</span>`;
  return html`${countText(count, mark)}${share}${screened}`;
}

function methodCell(proposal: Proposal, check: Check, context: RowsContext, name: string) {
  const chosen = context.sides(check);
  const normality = normalityText(proposal, context.mark);
  return html`${methodText(proposal)}${normality === '' ? '' : `; ${normality}`}
  ${
    proposal.method === 'open'
      ? nothing
      : html`<select
          class="sides"
          aria-label="Sides of ${name}"
          @change=${(event: Event) => {
            context.chooseSides(check, (event.target as HTMLSelectElement).value as LearningSettings['sides']);
          }}
        >
          ${(['both', 'at least', 'at most'] as const).map(
            (sides) => html`<option value=${sides} ?selected=${sides === chosen}>${SIDES_WORDS[sides]}</option>`,
          )}
        </select>`
  }`;
}

function notesOf(line: ProposalLine, context: RowsContext): readonly TemplateResult[] {
  const { check, proposal, reason, present } = line;
  const notes: TemplateResult[] = [];
  if (reason !== undefined) notes.push(html`<p>${reason}</p>`);
  for (const warning of proposal?.warnings ?? []) notes.push(html`<p><span class="wrong">▲</span> ${warning}</p>`);
  for (const { meter, percent, readings } of proposal?.putRight ?? []) {
    const off = `${numberText(Math.abs(percent), 1, context.mark)}\u00a0% ${percent > 0 ? 'high' : 'low'}`;
    const which = readings === 1 ? 'its reading was' : `its ${countText(readings, context.mark)} readings were`;
    notes.push(
      html`<p>
        ${meter} reads ${off}: ${which} put right before the band was learned. Past boards are tried as they were read.
      </p>`,
    );
  }
  if (proposal?.differ) {
    const { meters, percent } = proposal.differ;
    const apart = `${numberText(percent, 1, context.mark)}\u00a0%`;
    notes.push(html`<p><span class="wrong">▲</span> ${meters.join(' and ')} differ by ${apart}, and which of them is off is not known: neither was put right.</p>`); // prettier-ignore
  }
  if (proposal && proposal.removed.length > 0) notes.push(screenedList(proposal, check, context));
  if (present === undefined && (proposal === undefined || isFew(proposal))) {
    if (proposal !== undefined && proposal.normality === undefined) {
      const few = countOf(proposal.count, 'reading', context.mark);
      notes.push(html`<p><span class="wrong">▲</span> Learned from ${few} only, it holds if their spread is normal, which so few cannot show.</p>`); // prettier-ignore
    }
    if (MODE_UNITS[check.mode] === 'V' && check.mode !== 'diode') notes.push(markingForm(check, context));
  }
  return notes;
}

/** Whether there are too few readings even to test whether they are normal. */
export function isFew({ method, normality, boardsWanted }: Proposal): boolean {
  return (method === 'normal' && normality === undefined) || boardsWanted > 0;
}

function screenedList({ removed }: Proposal, check: Check, context: RowsContext) {
  const { mark } = context;
  const unit = MODE_UNITS[check.mode];
  return html`<p>
      Screened as too far from the others (generalised ESD at 0.1 %); tick those to keep, and the band is learned with
      them.
    </p>
    <ul class="screened">
      ${removed.map(({ row, value, statistic, critical, modifiedZ, kept }) => {
        const text = limitText(value, unit, mark);
        const place = {
          filters: [{ field: 'reading', from: value, to: value }, ...filtersOf(check)],
          sort: [],
        } as const;
        return html`<li>
          <label
            ><input
              type="checkbox"
              .checked=${kept}
              @change=${(event: Event) => {
                context.keep(row, (event.target as HTMLInputElement).checked);
              }}
            />
            keep</label
          >
          <a class="figures" href=${readingsHash(place)} aria-label="${text}, in the log">${text}</a>
          <span>${numberText(statistic, 2, mark)} standard deviations off</span>
          <span class="quiet">at most ${numberText(critical, 2, mark)}</span>
          <span class="quiet">${Number.isNaN(modifiedZ) ? '' : `modified z ${numberText(modifiedZ, 1, mark)}`}</span>
        </li>`;
      })}
    </ul>`;
}

function filtersOf({ family, point, stage, mode }: Check) {
  return [
    { field: 'family', oneOf: [family] },
    { field: 'point', oneOf: [point] },
    { field: 'stage', oneOf: [stage] },
    { field: 'mode', oneOf: [mode] },
  ] as const;
}

function markingForm(check: Check, context: RowsContext) {
  const { nominal, percent } = context.marking(check);
  const typed = (event: Event): string => (event.target as HTMLInputElement).value;
  return html`<div class="meanwhile">
    <span>Meanwhile, the board’s marking:</span>
    <input
      type="text"
      aria-label="Nominal of ${check.point}, ${check.stage}"
      .value=${nominal}
      @input=${(event: Event) => {
        context.typeMarking(check, { nominal: typed(event) });
      }}
    />
    <span>±</span>
    <input
      type="text"
      aria-label="Percent around the nominal of ${check.point}, ${check.stage}"
      .value=${percent}
      @input=${(event: Event) => {
        context.typeMarking(check, { percent: typed(event) });
      }}
    />
    <span>%</span>
    <button
      type="button"
      aria-label="Set the marking of ${check.point}, ${check.stage}"
      @click=${() => {
        context.acceptMarking(check);
      }}
    >
      Set the marking
    </button>
  </div>`;
}

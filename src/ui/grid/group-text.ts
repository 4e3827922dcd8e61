import { html, type TemplateResult } from 'lit';
import { joinQuantity, type DecimalMark } from '../../domain/quantity.ts';
import type { GridLine, Grouping, GroupLine } from '../../session/answers.ts';
import { countOf, countText } from '../words.ts';
import { computedText, numberText } from './computed-text.ts';
import { spokenRow } from './grid-cells.ts';

export function isGroup(line: GridLine | undefined): line is GroupLine {
  return line !== undefined && 'group' in line;
}

/** What the readings of a group share, in words. */
export function groupName({ group, by }: GroupLine): string {
  return group === '' ? `${by} not stated` : group;
}

/** What a group's line says after its name, each in its place; empty where there is nothing to say. */
function groupFacts(line: GroupLine, mark: DecimalMark): readonly string[] {
  const { readings, outOfBand, judged, overRange, numbers } = line;
  const share = numberText(((100 * outOfBand) / judged).toFixed(1), mark);
  const quantity = (value: number, last: number): string =>
    numbers === undefined ? '' : joinQuantity(computedText(value, numbers.unit, last, mark));
  return [
    countOf(readings, 'reading', mark),
    judged === 0
      ? 'none judged'
      : `out of band ${countText(outOfBand, mark)} of ${countText(judged, mark)}, ${share}\u00a0%`,
    overRange === 0 ? '' : `${countText(overRange, mark)} over-range`,
    numbers === undefined ? '' : `median ${quantity(numbers.median, numbers.lastDigit)}`,
    numbers === undefined ? '' : `median absolute deviation ${quantity(numbers.spread, numbers.lastDigit)}`,
  ];
}

/** The whole line in plain text, for copies and for the voice. */
export function groupText(line: GroupLine, mark: DecimalMark): string {
  return `${groupName(line)}: ${groupFacts(line, mark)
    .filter((fact) => fact !== '')
    .join(', ')}`;
}

/** What is said when the cursor comes to a line: its place among all, and what it shows. @param index - from 0 */
export function spokenLine(line: GridLine, index: number, lines: number, mark: DecimalMark): string {
  const said = isGroup(line) ? groupText(line, mark) : spokenRow(line, mark);
  return `Row ${countText(index + 1, mark)} of ${countText(lines, mark)}, ${said}`;
}

/** The whole line as it is drawn. */
export function groupTemplate(line: GroupLine, mark: DecimalMark): TemplateResult {
  return html`<span class="fold" aria-hidden="true">${line.folded ? '▸' : '▾'}</span
    ><b>${groupName(line)}</b>${groupFacts(line, mark).map((fact) => html` <span class="fact">${fact}</span>`)}`;
}

/** The grouping with one group folded where it was not, or unfolded where it was. */
export function foldedOther(grouping: Grouping, group: string): Grouping {
  const { except } = grouping;
  const isExcept = except.includes(group);
  return { ...grouping, except: isExcept ? except.filter((other) => other !== group) : [...except, group] };
}

import { html, nothing } from 'lit';
import type { Band } from '../../domain/band.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { expectationText } from '../band-text.ts';
import { fixedText, percentText, shareText } from '../charts/share-text.ts';
import { countOf, countText, dayText, listText } from '../words.ts';
import { noFailures, type FamilyFigures } from './families-view.ts';
import { leftOut, numberColumns, sheetTable } from './sheet-table.ts';

/** A sheet holds the head of each list; the page has all of it. */
const MOST_PARTS = 14;
const MOST_CHECKS = 10;
const MOST_SETS = 6;
const MOST_LIKELY = 3;

/** Which repairs the sheet rests on. */
export function countedRepairs({ page, asked, mark }: FamilyFigures) {
  const { from, to, complaint, meter } = asked;
  const narrowed = [
    ...(from === undefined ? [] : [`from ${dayText(from)}`]),
    ...(to === undefined ? [] : [`to ${dayText(to)}`]),
    ...(complaint === undefined ? [] : [`under “${complaint}”`]),
    ...(meter === undefined ? [] : [`measured with ${meter}`]),
  ];
  return narrowed.length === 0
    ? html`<p>From ${countOf(page.allRepairs, 'repair', mark)}.</p>`
    : html`<p>
        From ${countText(page.repairs, mark)} of ${countOf(page.allRepairs, 'repair', mark)}: those
        ${listText(narrowed)}.
      </p>`;
}

/** How often each part failed and was replaced. */
export function failingParts(view: FamilyFigures) {
  const { page, mark } = view;
  const few = noFailures(view);
  const failures = page.failures.filter(({ failed, suspected, replaced }) => failed + suspected + replaced > 0);
  const shown = failures.slice(0, MOST_PARTS);
  return html`<section>
    <h2 id="failing">Which parts fail?</h2>
    ${
      few === undefined
        ? html`<p>
              Repairs in which the part is proved failed: bad out of circuit, or open in circuit. Replaced is not
              failed. The share is told by all that was read of these boards, with its 95 % limits.
            </p>
            ${sheetTable(
              'failing',
              [
                { title: 'part' },
                ...numberColumns(
                  'failed',
                  'shorted',
                  'leaky',
                  'open',
                  'suspected',
                  'read',
                  'replaced',
                  'replaced good',
                  'share failed',
                ),
              ],
              shown.map(({ part, failed, shorted, leaky, open, suspected, replaced, replacedGood }) => {
                const { rate, read = 0 } = page.masked.parts.find((one) => one.part === part) ?? {};
                const counts = [failed, shorted, leaky, open, suspected, read, replaced, replacedGood];
                return [
                  part,
                  ...counts.map((one) => countText(one, mark)),
                  rate === undefined ? 'not known' : `${percentText(rate.share, mark)} (${shareText(rate, mark)})`,
                ];
              }),
            )}
            ${leftOut(failures.length - shown.length, 'part', mark)}`
        : html`<p>${few}</p>`
    }
  </section>`;
}

/** The order of checks that shows the fault soonest. */
export function probingFirst({ page, asked, mark }: FamilyFigures) {
  const { probing: order } = page;
  if (order === undefined) return nothing;
  const useful = order.steps.filter(({ finds }) => finds > 0);
  const shown = useful.slice(0, MOST_CHECKS);
  const usual =
    order.usualMinutes === undefined
      ? ''
      : `, against ${fixedText(order.usualMinutes, 1, mark)} in the order that the bench uses`;
  return html`<section>
    <h2 id="probing">What to probe first?</h2>
    <p>
      ${fixedText(order.minutes, 1, mark)} minutes expected to the reading that shows the
      fault${usual}${asked.told === undefined ? '' : `, under “${asked.told}”`}, from
      ${countOf(order.repairs, 'repair', mark)} with a proved failure. As received, board without power.
    </p>
    ${sheetTable(
      'probing',
      [{ title: 'check' }, ...numberColumns('seconds', 'shows the fault', 'found by then')],
      shown.map(({ point, seconds, finds, found }, at) => [
        `${at + 1}. ${point}`,
        fixedText(seconds, 0, mark),
        percentText(finds, mark),
        percentText(found, mark),
      ]),
    )}
    ${leftOut(useful.length - shown.length, 'check', mark)}
  </section>`;
}

/** The likely parts of each complaint. */
export function likelyParts(view: FamilyFigures) {
  const { page, mark } = view;
  if (noFailures(view) !== undefined || page.complaints.rows.length === 0) return nothing;
  return html`<section>
    <h2 id="complaints">What does each complaint point to?</h2>
    <p>The likeliest failed parts under each complaint, with the chance that each has failed on the next board.</p>
    ${sheetTable(
      'complaints',
      [{ title: 'complaint' }, { title: 'repairs', holds: 'number' }, { title: 'likely parts', holds: 'wraps' }],
      page.complaints.rows.map(({ complaint, repairs, likely }) => [
        complaint,
        countText(repairs, mark),
        likely
          .slice(0, MOST_LIKELY)
          .map(({ part, chance }) => `${part} ${percentText(chance, mark)}`)
          .join(', '),
      ]),
    )}
  </section>`;
}

/** Sets of parts that failed in several repairs. */
export function failingAsOne(view: FamilyFigures) {
  const { page, mark } = view;
  const sets = page.signatures.filter(({ parts }) => parts.length > 1).slice(0, MOST_SETS);
  if (noFailures(view) !== undefined || sets.length === 0) return nothing;
  return html`<section>
    <h2>Which parts fail as one?</h2>
    <p>
      ${sets.map(({ parts, count }) => `${listText(parts)} in ${countText(count, mark)}`).join('; ')} of
      ${countOf(page.repairs, 'repair', mark)}.
    </p>
  </section>`;
}

/** How many boards came back. */
export function holdingRepairs(view: FamilyFigures) {
  const { all } = view.page.holding;
  const { watched } = view.page;
  if (all === undefined) return nothing;
  const { mark } = view;
  const last = all.steps.at(-1);
  const limits = last?.limits;
  return html`<section>
    <h2>Do repairs hold?</h2>
    <p>
      ${countOf(all.repairs, 'board', mark)} went back, ${countText(all.comebacks, mark)} came back by
      ${dayText(watched)}.
      ${
        last === undefined || all.comebacks === 0
          ? nothing
          : `Within ${countOf(Math.round(last.time), 'day', mark)}, ${percentText(1 - last.survival, mark)} came back${limits === undefined ? '' : `, ${shareText({ low: 1 - limits.upper, high: 1 - limits.lower }, mark)} with 95 % confidence`} (Kaplan–Meier).`
      }
    </p>
  </section>`;
}

/** What its points should read under power, by their bands. */
export function readingsUnderPower(bands: readonly Band[], mark: DecimalMark) {
  if (bands.length === 0) return html`<p>No live point of this family has a band yet.</p>`;
  return html`<section>
    <h2 id="live">What should it read under power?</h2>
    ${sheetTable(
      'live',
      [{ title: 'point' }, { title: 'mode' }, { title: 'should read' }, { title: 'set by' }],
      bands.map(({ point, mode, expects, basis }) => [
        point,
        mode,
        expectationText(expects, MODE_UNITS[mode], mark),
        basis,
      ]),
    )}
  </section>`;
}

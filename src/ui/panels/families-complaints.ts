import { html, nothing } from 'lit';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import '../charts/matrix-chart.ts';
import type { MatrixEntry } from '../charts/matrix-chart.ts';
import { percentText, shareText } from '../charts/share-text.ts';
import { countOf, countText } from '../words.ts';
import { countCell, countedIn, shareCells } from './families-cells.ts';
import { selectField } from './families-fields.ts';
import { noFailures, repairsHash, type FamilyView } from './families-view.ts';

type ComplaintRow = FamilyView['page']['complaints']['rows'][number];

const MOST_PARTS = 12;
const MOST_LIKELY = 8;

/** Complaint against failed part, in counts. */
export function complaintsAgainstParts(view: FamilyView) {
  const { page, mark } = view;
  const { rows, withoutComplaint } = page.complaints;
  const without =
    withoutComplaint === 0
      ? ''
      : ` ${countOf(withoutComplaint, 'repair', mark)} without a complaint ${withoutComplaint === 1 ? 'is' : 'are'} left out.`;
  const parts = page.failures
    .filter(({ failed }) => failed > 0)
    .map(({ part }) => part)
    .slice(0, MOST_PARTS);
  return html`<bt-figure-frame
    .question=${'Which part fails under which complaint?'}
    .sentence=${`A cell counts the repairs under the complaint in which the part is proved failed; several may be in one repair.${without}`}
    .instead=${noComplaints(view)}
    .table=${noComplaints(view) === undefined ? matrixTable(view) : undefined}
    .folded=${true}
    .file=${page.family}
  >
    <bt-matrix-chart
      .rows=${rows.map(({ complaint }) => complaint)}
      .columns=${parts}
      .entries=${rows.map((row) => parts.map((part) => entryOf(view, row, part)))}
      .nameRoom=${240}
      .decimalMark=${mark}
      .about=${'Complaints against failed parts, by repairs'}
    ></bt-matrix-chart>
  </bt-figure-frame>`;
}

/** For one complaint, the likely parts in order. */
export function whatAComplaintPointsTo(view: FamilyView) {
  const { page, asked, mark, change } = view;
  const { rows } = page.complaints;
  const row = rows.find(({ complaint }) => complaint === asked.told) ?? rows[0];
  const few = noComplaints(view);
  if (row === undefined || few !== undefined) return nothing;
  const likely = row.likely.slice(0, MOST_LIKELY);
  const lines = likely.map(({ part, count, read, chance, low, high }): IntervalLine => {
    const share = `${percentText(chance, mark)}, ${shareText({ low, high }, mark)} with 95 % probability`;
    return {
      sentence: `${part} is proved failed in ${countText(count, mark)} of the ${countOf(read, 'repair', mark)} under “${row.complaint}” in which it was read; the chance that it has failed on the next is ${share}.`,
      repairs: repairsHash(view, { complaint: row.complaint, ...(count > 0 && { failed: [part] }) }),
      title: part,
      label: `${percentText(chance, mark)} · ${countText(count, mark)} of ${countText(read, mark)} read`,
      series: [{ low, high, middle: chance }],
    };
  });
  return html`<bt-figure-frame
    .question=${`What does “${row.complaint}” point to?`}
    .sentence=${`${countOf(row.repairs, 'repair', mark)} under it${row.nothingProved === 0 ? '' : `, nothing proved in ${countText(row.nothingProved, mark)}`}. The dot is the chance that the part has failed on the next board, by the family’s failure model; the line holds it with 95 % probability.`}
    .table=${likelyTable(view, row, likely)}
    .file=${page.family}
  >
    <div slot="choices" class="choices">
      ${selectField(
        'Complaint',
        row.complaint,
        rows.map(({ complaint }) => complaint),
        undefined,
        (told) => {
          change({ told });
        },
      )}
    </div>
    <bt-interval-rows
      .lines=${lines}
      .tickText=${(share: number) => percentText(share, mark)}
      .decimalMark=${mark}
      .about=${'Likely parts, the likeliest first'}
    ></bt-interval-rows>
  </bt-figure-frame>`;
}

function noComplaints(view: FamilyView): string | undefined {
  return (
    noFailures(view) ??
    (view.page.complaints.rows.length === 0 ? 'No repair has a complaint on record: too few to say.' : undefined)
  );
}

function entryOf(view: FamilyView, { complaint, likely, repairs }: ComplaintRow, part: string): MatrixEntry {
  const count = likely.find((one) => one.part === part)?.count ?? 0;
  return {
    count,
    name: `${complaint}, ${part}: ${countText(count, view.mark)}`,
    sentence: `${part} is proved failed in ${countText(count, view.mark)} of ${countOf(repairs, 'repair', view.mark)} under “${complaint}”, ${percentText(count / repairs, view.mark)}.`,
    repairs: repairsHash(view, { complaint, ...(count > 0 && { failed: [part] }) }),
  };
}

function matrixTable(view: FamilyView): FigureTable {
  const { page, mark } = view;
  return {
    caption: `Complaints of ${page.family}, the most frequent first, with the parts proved failed and their share of the row`,
    columns: [
      { title: 'complaint' },
      { title: 'repairs', number: true },
      { title: 'nothing proved', number: true },
      ...page.complaints.parts.map((title) => ({ title, number: true })),
    ],
    rows: page.complaints.rows.map((row) => [
      row.complaint,
      countedIn(row.repairs, repairsHash(view, { complaint: row.complaint }), mark),
      countCell(row.nothingProved, mark),
      ...page.complaints.parts.map((part) => {
        const count = row.likely.find((one) => one.part === part)?.count ?? 0;
        const cell = countedIn(count, repairsHash(view, { complaint: row.complaint, failed: [part] }), mark);
        return count === 0 ? cell : { ...cell, text: `${cell.text} (${percentText(count / row.repairs, mark)})` };
      }),
    ]),
  };
}

function likelyTable(view: FamilyView, row: ComplaintRow, likely: ComplaintRow['likely']): FigureTable {
  const { mark } = view;
  return {
    caption: `Likely parts under “${row.complaint}”`,
    columns: [
      { title: 'part' },
      ...['failed', 'read', 'chance', 'from', 'to'].map((title) => ({ title, number: true })),
    ],
    rows: likely.map(({ part, count, read, chance, low, high }) => [
      part,
      countedIn(count, repairsHash(view, { complaint: row.complaint, failed: [part] }), mark),
      countCell(read, mark),
      ...shareCells({ middle: chance, low, high }, mark),
    ]),
  };
}

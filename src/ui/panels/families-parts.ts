import { html, nothing } from 'lit';
import '../charts/failure-bars.ts';
import type { FailureBar } from '../charts/failure-bars.ts';
import { worthText } from '../charts/failure-text.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/interval-rows.ts';
import type { IntervalLine } from '../charts/interval-rows.ts';
import { percentText, shareText } from '../charts/share-text.ts';
import { orderParts } from '../../charts/bars.ts';
import { hashOf } from '../route.ts';
import { countOf, countText } from '../words.ts';
import { countCell, countedIn, shareCells } from './families-cells.ts';
import { badReadings, noFailures, repairsHash, type FamilyView } from './families-view.ts';

/** Which parts fail, measured and inferred, beside how often each is replaced. */
export function whichPartsFail(view: FamilyView) {
  const { page, mark } = view;
  const bars = barsOf(view);
  const drawn = bars.filter(({ failed, suspected, replaced }) => failed + suspected + replaced > 0);
  return html`<bt-figure-frame
    .question=${`Which parts fail in ${page.family}?`}
    .sentence=${`${countOf(page.repairs, 'repair', mark)}. A bar counts those in which the part is proved failed: bad out of circuit, or open in circuit. Hatched: what is expected of those in which it was not read. Replaced is not failed.${unmeasuredSentence(view)}`}
    .instead=${noFailures(view)}
    .table=${partsTable(view, bars)}
    .file=${page.family}
  >
    <bt-failure-bars
      .parts=${drawn}
      .repairs=${page.repairs}
      .decimalMark=${mark}
      .about=${`Parts of ${page.family} by repairs, most first`}
    ></bt-failure-bars>
    ${contradictoryWords(view)}
    <details slot="words">
      <summary>How it was counted</summary>
      <p>
        A part that was not read counts neither as failed nor as good. A model of how the family fails, a few causes
        that each take parts with chances of their own, is fitted to what was read of all boards together: what was read
        of one board tells how likely the rest of it had failed. A good reading across two nodes clears every part there
        whose fault is a short; of parts that read bad together, one at least had failed. The line holds the part’s
        share with 95 % probability. Latent classes (Goodman 1974) over what was read (Rubin 1976), by data augmentation
        (Tanner and Wong 1987).
      </p>
    </details>
  </bt-figure-frame>`;
}

/** Repairs of which no part was measured. */
function unmeasuredSentence({ page: { unmeasured }, mark }: FamilyView): string {
  if (unmeasured === 0) return '';
  return ` ${countOf(unmeasured, 'repair', mark)} without a reading of any part ${unmeasured === 1 ? 'tells' : 'tell'} nothing of what failed.`;
}

/** The parts that read both bad and good, each with the repair in which both readings stand. */
function contradictoryWords({ page: { contradictory }, mark }: FamilyView) {
  if (contradictory.length === 0) return nothing;
  const shown = contradictory.slice(0, MOST_CONTRADICTORY);
  const rest = contradictory.length - shown.length;
  return html`<p slot="words">
    ${contradictory.length === 1 ? 'One part' : `${countText(contradictory.length, mark)} times a part`} read both bad
    and good out of circuit, which counts neither as failed nor as good; both readings stand in the repair:
    ${shown.map(
      ({ part, repair }, at) =>
        html`${at === 0 ? '' : ', '}${part} in <a href=${hashOf('repairs', repair)}>${repair}</a>`,
    )}${rest > 0 ? ` and ${countText(rest, mark)} more` : ''}.
  </p>`;
}

const MOST_CONTRADICTORY = 12;

/** Of the times that a part read short in circuit, how often it was the one. */
export function inCircuitAgainstOut(view: FamilyView) {
  const { page, mark } = view;
  const lines = page.inCircuit.map((one): IntervalLine => {
    const settled = one.wasIt + one.wasGood;
    const said = `${one.part} read short or leaky in circuit in ${countOf(one.readBad, 'repair', mark)}: it was the one in ${countText(one.wasIt, mark)}, good in ${countText(one.wasGood, mark)}, not settled in ${countText(one.unsettled, mark)}.`;
    const limits = one.share && { low: one.share.lower, high: one.share.upper, middle: one.share.middle };
    return {
      sentence:
        limits === undefined
          ? `${said} Too few to say.`
          : `${said} By all that was read it is the one in ${percentText(limits.middle, mark)}, ${shareText(limits, mark)} with 95 % probability.`,
      repairs: repairsHash(view, { readBad: [one.part] }),
      title: one.part,
      label: settled === 0 ? 'none settled' : `${countText(one.wasIt, mark)} of ${countText(settled, mark)} settled`,
      series: [limits],
    };
  });
  const read = page.inCircuit.reduce((sum, { readBad }) => sum + readBad, 0);
  return html`<bt-figure-frame
    .question=${'A part reads short in circuit: is it the one?'}
    .sentence=${`${countText(read, mark)} times a part read short or leaky in circuit in ${countOf(page.repairs, 'repair', mark)}. The dot is the share in which it is the one; the line holds it with 95 % probability.`}
    .instead=${tooFewInCircuit(view)}
    .table=${inCircuitTable(view)}
    .file=${page.family}
  >
    <bt-interval-rows
      .lines=${lines}
      .tickText=${(share: number) => percentText(share, mark)}
      .decimalMark=${mark}
      .about=${'Share of in-circuit shorts in which the part was the one'}
    ></bt-interval-rows>
    <details slot="words">
      <summary>How it was counted</summary>
      <p>
        A bench lifts what it suspects and often stops at the first bad part, so the repairs that were settled would
        mislead. Of parts across the same nodes the share is told by the family’s failure model, from all that was read
        of them. Of a part by itself it is that of the settled repairs, from Jeffreys’ prior.
      </p>
    </details>
  </bt-figure-frame>`;
}

/** A part's counts with what is inferred of it; where its share can be told with that, by that. */
function barsOf(view: FamilyView): readonly FailureBar[] {
  const rates = new Map(view.page.masked.parts.map((rate) => [rate.part, rate]));
  return view.page.failures.map((counts) => {
    const known = rates.get(counts.part);
    return {
      ...counts,
      inferred: known?.inferred ?? 0,
      read: known?.read ?? 0,
      share: (known?.read ?? 0) + (known?.inferred ?? 0) > 0 ? known?.rate : undefined,
      href: badReadings(view, [counts.part]),
      failedIn: repairsHash(view, { failed: [counts.part] }),
    };
  });
}

function partsTable(view: FamilyView, bars: readonly FailureBar[]): FigureTable {
  const { page, mark } = view;
  // Where nothing could be proved, a share of zero would say more than is known.
  const isKnown = noFailures(view) === undefined;
  const titles = [
    'failed',
    'shorted',
    'leaky',
    'open',
    'suspected',
    'read',
    'inferred',
    'replaced',
    'replaced good',
    'share',
    'from',
    'to',
  ];
  return {
    caption: `Repairs of ${page.family} out of ${countText(page.repairs, mark)}, by part`,
    columns: [{ title: 'part' }, ...titles.map((title) => ({ title, number: true }))],
    rows: orderParts(bars).map((bar) => {
      const { failed, shorted, leaky, open, suspected, read, inferred, replaced, replacedGood, share } = bar;
      const middle = page.masked.parts.find(({ part }) => part === bar.part)?.rate?.share;
      return [
        { text: bar.part, ...(bar.href === undefined ? {} : { href: bar.href }) },
        countedIn(failed, repairsHash(view, { failed: [bar.part] }), mark),
        ...[shorted, leaky, open].map((count) => countCell(count, mark)),
        countedIn(suspected, repairsHash(view, { suspected: [bar.part] }), mark),
        countCell(read, mark),
        { text: read === page.repairs ? '' : worthText(inferred, mark), value: inferred },
        countedIn(replaced, repairsHash(view, { replaced: [bar.part] }), mark),
        countedIn(replacedGood, repairsHash(view, { replacedGood: [bar.part] }), mark),
        ...shareCells(isKnown ? share && { middle, ...share } : undefined, mark),
      ];
    }),
  };
}

function tooFewInCircuit(view: FamilyView): string | undefined {
  if (view.page.repairs === 0) return noFailures(view);
  if (view.page.inCircuit.length > 0) return undefined;
  return 'No part read short or leaky in circuit before it was taken out: too few to say.';
}

function inCircuitTable(view: FamilyView): FigureTable {
  const { page, mark } = view;
  const titles = ['read bad', 'was the one', 'was good', 'not settled', 'share', 'from', 'to'];
  return {
    caption: `Repairs of ${page.family} in which the part read bad in circuit`,
    columns: [{ title: 'part' }, ...titles.map((title) => ({ title, number: true }))],
    rows: page.inCircuit.map(({ part, readBad, wasIt, wasGood, unsettled, share }) => [
      part,
      countedIn(readBad, repairsHash(view, { readBad: [part] }), mark),
      ...[wasIt, wasGood, unsettled].map((count) => countCell(count, mark)),
      ...shareCells(share && { middle: share.middle, low: share.lower, high: share.upper }, mark),
    ]),
  };
}

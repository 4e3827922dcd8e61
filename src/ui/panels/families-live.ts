import { html } from 'lit';
import { engineeringPrefix, prefixSymbol } from '../../domain/prefix.ts';
import { formatShown, joinQuantity, type Unit } from '../../domain/quantity.ts';
import type { Limits } from '../../domain/band.ts';
import type { LiveNumbers, LivePoints } from '../../session/answers.ts';
import { limitText, rangeText } from '../band-text.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/live-rows.ts';
import type { LiveLine } from '../charts/live-rows.ts';
import { fixedText } from '../charts/share-text.ts';
import { countOf, countText } from '../words.ts';
import { countCell } from './families-cells.ts';
import { pointReadings, type FamilyView } from './families-view.ts';

/** Live readings at each point, as the board was received and as it went back, over the band. */
export function liveReadings(view: FamilyView) {
  const { page, mark } = view;
  const lines = page.live.map((points) => lineOf(view, points, titleOf(points, page.live)));
  return html`<bt-figure-frame
    .question=${'What do boards under power read at each point?'}
    .sentence=${sentenceOf(view)}
    .instead=${lines.length === 0 ? nothingRead(view) : undefined}
    .table=${tableOf(view)}
    .folded=${true}
    .file=${page.family}
  >
    <bt-live-rows .lines=${lines} .decimalMark=${mark} .about=${'Live readings by point'}></bt-live-rows>
  </bt-figure-frame>`;
}

function sentenceOf({ page, asked, mark }: FamilyView): string {
  const by = asked.meter === undefined ? '' : ` by ${asked.meter}`;
  return `Readings under power${by} of ${countOf(page.repairs, 'repair', mark)}; each point on its own scale, shaded its band. A stroke above the middle is a board as received, one below a board as it went back.`;
}

function nothingRead({ page }: FamilyView): string {
  return page.repairs === page.allRepairs
    ? 'No board of this family was measured under power yet.'
    : 'No board that fits these filters was measured under power.';
}

/** A point with its stage where that is not live, and its mode where it is read in several. */
function titleOf({ check }: LivePoints, all: readonly LivePoints[]): string {
  const { point, stage, mode } = check;
  const isReadInSeveral = all.some(({ check: other }) => other.point === point && other.mode !== mode);
  return [point, ...(stage === 'live' ? [] : [stage]), ...(isReadInSeveral ? [mode] : [])].join(', ');
}

function lineOf(view: FamilyView, points: LivePoints, title: string): LiveLine {
  const { mark } = view;
  const { check, unit, limits, without: wordless } = points;
  const { received, returned } = points;
  const band = limits === undefined ? 'no band' : bandText(limits, unit, mark);
  const label =
    limits === undefined
      ? 'no band'
      : `${countText(returned.within ?? 0, mark)} of ${countText(returned.count, mark)} went back in band`;
  const without = wordless === 0 ? '' : ` ${countText(wordless, mark)} more gave no number.`;
  return {
    received: received.values,
    returned: returned.values,
    limits,
    title,
    label,
    sentence: `${check.point}, ${check.stage}, ${check.mode}: ${countOf(received.count, 'reading', mark)} as received, ${countText(returned.count, mark)} as the board went back; ${band}.${without}`,
    href: pointReadings(view, check.point, [
      { field: 'stage', oneOf: [check.stage] },
      { field: 'mode', oneOf: [check.mode] },
    ]),
    tickText: tickTextFor([...received.values, ...returned.values], unit, mark),
  };
}

function bandText(limits: Limits, unit: Unit, mark: FamilyView['mark']): string {
  if (limits.high === Infinity) return `band at least ${limitText(limits.low, unit, mark)}`;
  if (limits.low === -Infinity) return `band at most ${limitText(limits.high, unit, mark)}`;
  return `band ${rangeText(limits, unit, mark)}`;
}

/** Ticks in one prefix, that of the largest reading; with as many digits as they need. */
function tickTextFor(values: readonly number[], unit: Unit, mark: FamilyView['mark']): (value: number) => string {
  const largest = values.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const prefix = largest === 0 ? 0 : engineeringPrefix(largest);
  return (value) => {
    const scaled = Number((value / 10 ** prefix).toPrecision(6));
    const decimals = Math.min(3, (String(scaled).split('.')[1] ?? '').length);
    return `${fixedText(scaled, decimals, mark)}\u00a0${prefixSymbol(prefix)}${unit}`;
  };
}

function tableOf(view: FamilyView): FigureTable {
  const { page, mark } = view;
  const sides = [
    'received',
    'lowest received',
    'highest received',
    'returned',
    'lowest returned',
    'highest returned',
    'without a number',
  ];
  return {
    caption: `Readings of ${page.family} under power`,
    columns: [
      { title: 'point' },
      { title: 'stage' },
      { title: 'mode' },
      ...sides.map((title) => ({ title, number: true })),
      { title: 'band from', number: true },
      { title: 'band to', number: true },
    ],
    rows: page.live.map(({ check, unit, received, returned, without, lastDigit, limits }) => {
      const shown = (value: number | undefined) => {
        if (value === undefined) return { text: '' };
        const prefix = engineeringPrefix(value);
        const decimals = Math.max(0, prefix - lastDigit);
        return {
          text: joinQuantity(formatShown(value, unit, { prefix, decimals: Math.min(decimals, 4) }, mark)),
          value,
        };
      };
      const ends = ({ count, values }: LiveNumbers) => [countCell(count, mark), shown(values[0]), shown(values.at(-1))];
      const limit = (value: number | undefined) =>
        value === undefined || !Number.isFinite(value) ? { text: '' } : { text: limitText(value, unit, mark), value };
      return [
        check.point,
        check.stage,
        check.mode,
        ...ends(received),
        ...ends(returned),
        countCell(without, mark),
        limit(limits?.low),
        limit(limits?.high),
      ];
    }),
  };
}

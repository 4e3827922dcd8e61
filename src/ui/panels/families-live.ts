import { html } from 'lit';
import type { Check } from '../../domain/check.ts';
import { engineeringPrefix, prefixSymbol } from '../../domain/prefix.ts';
import { formatShown, joinQuantity, UNITS, type Unit } from '../../domain/quantity.ts';
import { isWithin, type Limits } from '../../domain/band.ts';
import { STATES } from '../../domain/reading.ts';
import type { PastPoints } from '../../session/answers.ts';
import { limitText, rangeText } from '../band-text.ts';
import '../charts/figure-frame.ts';
import type { FigureTable } from '../charts/figure-table.ts';
import '../charts/live-rows.ts';
import type { LiveLine } from '../charts/live-rows.ts';
import { fixedText } from '../charts/share-text.ts';
import { countOf, countText } from '../words.ts';
import { countCell } from './families-cells.ts';
import { pointReadings, type FamilyView } from './families-view.ts';

const VALUE = STATES.indexOf('value');

/** Live readings at each point, as the board was received and as it went back, over the band. */
export function liveReadings(view: FamilyView) {
  const { page, mark } = view;
  const lines = page.live.map(({ check, points }) => lineOf(view, check, points));
  return html`<bt-figure-frame
    .question=${'What do boards under power read at each point?'}
    .sentence=${'All readings of the family under power, whatever the filters above; each point on its own scale, shaded its band. A stroke above the middle is a board as received, one below a board as it went back.'}
    .instead=${lines.length === 0 ? 'No board of this family was measured under power yet.' : undefined}
    .table=${tableOf(view)}
    .folded=${true}
    .file=${page.family}
  >
    <bt-live-rows .lines=${lines} .decimalMark=${mark} .about=${'Live readings by point'}></bt-live-rows>
  </bt-figure-frame>`;
}

interface Halves {
  readonly received: readonly number[];
  readonly returned: readonly number[];
  /** Answers without a number: over-range and the like. */
  readonly without: number;
}

function halvesOf({ value, state, returned }: PastPoints): Halves {
  const numbers = [...value.keys()].filter((at) => state[at] === VALUE && Number.isFinite(value[at]));
  const pick = (side: number): readonly number[] =>
    numbers.filter((at) => (returned[at] ?? 0) === side).map((at) => value[at] ?? 0);
  return { received: pick(0), returned: pick(1), without: value.length - numbers.length };
}

function lineOf(view: FamilyView, check: Check, points: PastPoints): LiveLine {
  const { mark } = view;
  const halves = halvesOf(points);
  const { limits } = points;
  const unit = unitOf(points);
  const inBand = limits && halves.returned.filter((value) => isWithin(limits, 'value', value) === true).length;
  const title = check.stage === 'live' ? check.point : `${check.point}, ${check.stage}`;
  const band = limits === undefined ? 'no band' : bandText(limits, unit, mark);
  const label =
    limits === undefined
      ? 'no band'
      : `${countText(inBand ?? 0, mark)} of ${countText(halves.returned.length, mark)} went back in band`;
  const without = halves.without === 0 ? '' : ` ${countText(halves.without, mark)} more gave no number.`;
  return {
    ...halves,
    limits,
    title,
    label,
    sentence: `${title}, ${check.mode}: ${countOf(halves.received.length, 'reading', mark)} as received, ${countText(halves.returned.length, mark)} as the board went back; ${band}.${without}`,
    href: pointReadings(view, check.point, [
      { field: 'stage', oneOf: [check.stage] },
      { field: 'mode', oneOf: [check.mode] },
    ]),
    tickText: tickTextFor(halves, unit, mark),
  };
}

function bandText(limits: Limits, unit: Unit, mark: FamilyView['mark']): string {
  if (limits.high === Infinity) return `band at least ${limitText(limits.low, unit, mark)}`;
  if (limits.low === -Infinity) return `band at most ${limitText(limits.high, unit, mark)}`;
  return `band ${rangeText(limits, unit, mark)}`;
}

function unitOf({ unit }: PastPoints): Unit {
  return UNITS.find((one) => one === unit) ?? 'V';
}

/** Ticks in one prefix, that of the largest reading; with as many digits as they need. */
function tickTextFor({ received, returned }: Halves, unit: Unit, mark: FamilyView['mark']): (value: number) => string {
  const largest = [...received, ...returned].reduce((most, value) => Math.max(most, Math.abs(value)), 0);
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
    rows: page.live.map(({ check, points }) => {
      const { received, returned, without } = halvesOf(points);
      const unit = unitOf(points);
      const shown = (value: number | undefined) => {
        if (value === undefined) return { text: '' };
        const prefix = engineeringPrefix(value);
        const decimals = Math.max(0, prefix - points.lastDigit);
        return {
          text: joinQuantity(formatShown(value, unit, { prefix, decimals: Math.min(decimals, 4) }, mark)),
          value,
        };
      };
      const ends = (values: readonly number[]) => [
        countCell(values.length, mark),
        shown(least(values)),
        shown(most(values)),
      ];
      const limit = (value: number | undefined) =>
        value === undefined || !Number.isFinite(value) ? { text: '' } : { text: limitText(value, unit, mark), value };
      return [
        check.point,
        check.stage,
        check.mode,
        ...ends(received),
        ...ends(returned),
        countCell(without, mark),
        limit(points.limits?.low),
        limit(points.limits?.high),
      ];
    }),
  };
}

function least(values: readonly number[]): number | undefined {
  return values.reduce<number | undefined>((low, value) => (low === undefined || value < low ? value : low), undefined);
}

function most(values: readonly number[]): number | undefined {
  return values.reduce<number | undefined>(
    (high, value) => (high === undefined || value > high ? value : high),
    undefined,
  );
}

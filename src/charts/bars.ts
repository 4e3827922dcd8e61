import { max, scaleLinear } from 'd3';
import { ticksOf, type Tick } from './places.ts';

/** How often one part failed and was replaced, in numbers of repairs. */
export interface PartCounts {
  readonly part: string;
  readonly failed: number;
  readonly shorted: number;
  readonly leaky: number;
  readonly open: number;
  /** In how many of the repairs in which it was not read it is expected to have failed. */
  readonly inferred: number;
  readonly replaced: number;
  /** Replaced although it had measured good. */
  readonly replacedGood: number;
  /** Interval of the share of repairs in which the part failed, from 0 to 1; undefined where it cannot be told. */
  readonly share: { readonly low: number; readonly high: number } | undefined;
}

export const SEGMENT_KINDS = ['shorted', 'leaky', 'open', 'failed', 'inferred'] as const;
/** How a part read; `failed` is proved without one of the words. */
export type SegmentKind = (typeof SEGMENT_KINDS)[number];

/** A piece of a bar, in pixels from the bars' left end. */
interface Segment {
  readonly kind: SegmentKind;
  readonly count: number;
  readonly x: number;
  readonly width: number;
}

/** A stretch of the scale, in pixels from its left end. */
interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** One part's bar; vertical places are those of its middle, in pixels from the top. */
export interface Bar<Part extends PartCounts = PartCounts> {
  readonly counts: Part;
  readonly y: number;
  readonly segments: readonly Segment[];
  /** None where the part never failed: its interval then begins at zero and says only how few repairs there are. */
  readonly whisker?: Stretch;
  readonly diamond: number;
  /** From the diamond back, as long as the number of parts replaced though good; none where there were none. */
  readonly good?: Stretch;
  /** Where the bar's label starts: right of all its marks. */
  readonly label: number;
}

export interface BarsLayout<Part extends PartCounts = PartCounts> {
  readonly bars: readonly Bar<Part>[];
  readonly ticks: readonly Tick[];
  readonly height: number;
}

export interface BarsSize {
  /** Width of the scale, in pixels. */
  readonly width: number;
  /** Height of one bar's row, in pixels. */
  readonly rowHeight: number;
}

/** Space between a bar's last mark and its label, in pixels. */
const LABEL_GAP = 12;

/** Failed most often first, inferred ones included, then replaced; equal ones in the order of their names, numbers by value. */
export function orderParts<Part extends PartCounts>(parts: readonly Part[]): readonly Part[] {
  return [...parts].sort(
    (a, b) =>
      b.failed + b.inferred - a.failed - a.inferred ||
      b.replaced - a.replaced ||
      a.part.localeCompare(b.part, 'en', { numeric: true }),
  );
}

/**
 * Lays out horizontal bars of counts of repairs: what a part proved to be, then what is inferred; a whisker for the
 * interval of the failed share, a diamond at the number of repairs in which the part was replaced, and back from it the
 * stretch of those in which it had measured good.
 * @param repairs - number of repairs that the shares are of
 */
export function layOutBars<Part extends PartCounts>(
  parts: readonly Part[],
  repairs: number,
  size: BarsSize,
): BarsLayout<Part> {
  const ordered = orderParts(parts);
  const reach = max(ordered, (counts) => extentOf(counts, repairs)) ?? 0;
  const x = scaleLinear()
    .domain([0, Math.max(1, reach)])
    .range([0, size.width])
    .nice(5);
  const bars = ordered.map((counts, index): Bar<Part> => {
    const { share, replaced, replacedGood } = counts;
    return {
      counts,
      y: (index + 0.5) * size.rowHeight,
      segments: segmentsOf(counts, x),
      ...(hasWhisker(counts) && share && { whisker: { from: x(share.low * repairs), to: x(share.high * repairs) } }),
      diamond: x(replaced),
      ...(replacedGood > 0 && { good: { from: x(replaced - replacedGood), to: x(replaced) } }),
      label: x(extentOf(counts, repairs)) + LABEL_GAP,
    };
  });
  const ticks = ticksOf(x, 5).filter(({ value }) => Number.isInteger(value));
  return { bars, ticks, height: ordered.length * size.rowHeight };
}

function hasWhisker({ failed, inferred }: PartCounts): boolean {
  return failed + inferred > 0;
}

function segmentsOf(counts: PartCounts, x: (count: number) => number): readonly Segment[] {
  const plain = counts.failed - counts.shorted - counts.leaky - counts.open;
  const sizes: Readonly<Record<SegmentKind, number>> = { ...counts, failed: plain };
  let start = 0;
  const segments: Segment[] = [];
  for (const kind of SEGMENT_KINDS) {
    const count = sizes[kind];
    if (count <= 0) continue;
    segments.push({ kind, count, x: x(start), width: x(start + count) - x(start) });
    start += count;
  }
  return segments;
}

function extentOf(counts: PartCounts, repairs: number): number {
  const { failed, inferred, replaced, share } = counts;
  return Math.max(failed + inferred, replaced, hasWhisker(counts) && share ? share.high * repairs : 0);
}

import { max, scaleLinear } from 'd3';

/** How often one part failed and was replaced, in numbers of repairs. */
export interface PartCounts {
  readonly part: string;
  readonly failed: number;
  readonly shorted: number;
  readonly leaky: number;
  readonly open: number;
  readonly suspected: number;
  readonly replaced: number;
  /** Interval of the share of repairs in which the part failed, from 0 to 1. */
  readonly share: { readonly low: number; readonly high: number };
}

export const SEGMENT_KINDS = ['shorted', 'leaky', 'open', 'failed', 'suspected'] as const;
/** How a part read; `failed` is proved without one of the words. */
export type SegmentKind = (typeof SEGMENT_KINDS)[number];

/** A piece of a bar, in pixels from the bars' left end. */
export interface Segment {
  readonly kind: SegmentKind;
  readonly count: number;
  readonly x: number;
  readonly width: number;
}

/** One part's bar; vertical places are those of its middle, in pixels from the top. */
export interface Bar {
  readonly counts: PartCounts;
  readonly y: number;
  readonly segments: readonly Segment[];
  readonly whisker: { readonly from: number; readonly to: number };
  readonly diamond: number;
  /** Where the bar's label starts: right of all its marks. */
  readonly label: number;
}

export interface BarsLayout {
  readonly bars: readonly Bar[];
  readonly ticks: readonly { readonly value: number; readonly x: number }[];
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

/** Failed most often first, then suspected, then replaced; equal ones in the order of their names, numbers by value. */
export function orderParts(parts: readonly PartCounts[]): readonly PartCounts[] {
  return [...parts].sort(
    (a, b) =>
      b.failed - a.failed ||
      b.suspected - a.suspected ||
      b.replaced - a.replaced ||
      a.part.localeCompare(b.part, 'en', { numeric: true }),
  );
}

/**
 * Lays out horizontal bars of counts of repairs: what a part proved to be, then what is suspected; a whisker for the
 * interval of the failed share, and a diamond at the number of repairs in which the part was replaced.
 * @param repairs - number of repairs that the shares are of
 */
export function layOutBars(parts: readonly PartCounts[], repairs: number, size: BarsSize): BarsLayout {
  const ordered = orderParts(parts);
  const reach = max(ordered, (counts) => extentOf(counts, repairs)) ?? 0;
  const x = scaleLinear()
    .domain([0, Math.max(1, reach)])
    .range([0, size.width])
    .nice(5);
  const bars = ordered.map((counts, index): Bar => {
    const segments = segmentsOf(counts, x);
    const whisker = { from: x(counts.share.low * repairs), to: x(counts.share.high * repairs) };
    const diamond = x(counts.replaced);
    return {
      counts,
      y: (index + 0.5) * size.rowHeight,
      segments,
      whisker,
      diamond,
      label: x(extentOf(counts, repairs)) + LABEL_GAP,
    };
  });
  const ticks = x
    .ticks(5)
    .filter(Number.isInteger)
    .map((value) => ({ value, x: x(value) }));
  return { bars, ticks, height: ordered.length * size.rowHeight };
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

function extentOf({ failed, suspected, replaced, share }: PartCounts, repairs: number): number {
  return Math.max(failed + suspected, replaced, share.high * repairs);
}

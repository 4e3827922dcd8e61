import { extent, max, median, min, scaleLinear, scaleLog } from 'd3';

/** Readings of one point as columns of equal length. */
export interface StripMarks {
  /** In one unit; looked at only where `beyond` is 0. */
  readonly value: Float64Array;
  /** 0 for a number, 1 where the quantity lies above what the meter can show, −1 below; 2 where the meter gave no answer. */
  readonly beyond: Int8Array;
  /** The row in which each reading is drawn, from 0. */
  readonly row: Uint8Array;
  /** Which of the two shapes, 0 or 1. */
  readonly shape: Uint8Array;
}

/** The stretch of values that a strip shows, linear or by decades. */
export interface StripDomain {
  readonly low: number;
  readonly high: number;
  readonly log: boolean;
}

export interface StripInput {
  readonly marks: StripMarks;
  readonly rows: number;
  readonly domain: StripDomain;
  /** Width of the scale, in pixels. */
  readonly width: number;
}

/** One row of marks; vertical places in pixels from the strip's top. */
export interface StripRow {
  readonly top: number;
  readonly height: number;
  /** Path data of the marks of each shape. */
  readonly paths: readonly [string, string];
  /** Marks that have no place on the scale, by what they are. */
  readonly aside: StripAside;
}

interface StripAside {
  /** Over-range and below-range answers. */
  readonly above: number;
  readonly below: number;
  /** Numbers beyond the ends of the scale. */
  readonly higher: number;
  readonly lower: number;
}

interface StripTick {
  readonly value: number;
  readonly x: number;
}

export interface Strip {
  readonly rows: readonly StripRow[];
  readonly height: number;
  readonly ticks: readonly StripTick[];
}

/** What the readings of a row come to; the quartiles of nothing are `NaN`. */
export interface RowSummary {
  readonly numbers: number;
  readonly above: number;
  readonly below: number;
  readonly lowest: number;
  readonly median: number;
  readonly highest: number;
}

/** From this ratio on readings of a quantity that may span decades are drawn by decades. */
const DECADE = 10;
const EMPTY_ROW = 22;
const TALLEST_ROW = 84;
/** The golden ratio's fraction spreads any number of marks evenly. */
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Half the size of a mark, in pixels. */
const REACH = 3;
/** In a row of more marks than this, one that would lie on another, to within `CELL` pixels, is not drawn again. */
const CROWDED = 2000;
const CELL = 2;
/** Room that a label of the scale takes, in pixels. */
const TICK_ROOM = 72;

/**
 * The stretch that shows all numbers and limits, with some air; undefined where there is neither.
 * @param limits - values that must be seen; infinite ones are passed over
 * @param decades - whether the quantity may span decades, as resistance does
 */
export function stripDomain(marks: StripMarks, limits: readonly number[], decades: boolean): StripDomain | undefined {
  const finite = limits.filter(Number.isFinite);
  const numbers = marks.value.filter((value, index) => marks.beyond[index] === 0 && Number.isFinite(value));
  const [low, high] = extent([
    ...finite,
    ...(extent(numbers) as [number?, number?]).filter((end) => end !== undefined),
  ]);
  if (low === undefined) return undefined;
  const positive = numbers.filter((value) => value > 0);
  const smallest = min([...finite.filter((value) => value > 0), min(positive) ?? Infinity])!;
  if (decades && low >= 0 && high > 0 && high / smallest >= DECADE) {
    return { low: smallest / 1.5, high: high * 1.5, log: true };
  }
  return padded(low, high);
}

/** The stretch around the limits and the readings of one row, which others may lie beyond; undefined where that is not much closer. */
export function closerDomain(
  marks: StripMarks,
  row: number,
  limits: readonly number[],
  whole: StripDomain,
): StripDomain | undefined {
  const near = marks.value.filter((_, index) => marks.row[index] === row && marks.beyond[index] === 0);
  const [low, high] = extent([...limits.filter(Number.isFinite), ...near]);
  if (low === undefined) return undefined;
  const reach = (high - low) / 4 || Math.abs(high) / 20 || 1;
  const closer = padded(low - reach, high + reach);
  const gains = whole.log ? low > 0 && high / low < DECADE : (whole.high - whole.low) / (closer.high - closer.low) >= 2;
  return gains ? closer : undefined;
}

/** The place of a value on a strip's scale, in pixels from its left end; beyond the ends of the scale, beyond 0 and the width. */
export function stripPlace({ low, high, log }: StripDomain, width: number, value: number): number {
  if (!log) return ((value - low) / (high - low)) * width;
  return value > 0 ? (Math.log(value / low) / Math.log(high / low)) * width : -Infinity;
}

/** The value at a place of a strip's scale. */
export function stripValue({ low, high, log }: StripDomain, width: number, x: number): number {
  const share = x / width;
  return log ? low * (high / low) ** share : low + share * (high - low);
}

/** The power of ten by which a limit moves at `value`: the meter's last digit, or on decades the third digit where that is finer. */
export function stepDigit(value: number, lastDigit: number, log: boolean): number {
  if (!log || value === 0) return lastDigit;
  return Math.min(lastDigit, Math.floor(Math.log10(Math.abs(value))) - 2);
}

/** `value` at the nearest whole number of steps of `10^digit`. */
export function snapped(value: number, digit: number): number {
  return digit < 0 ? Math.round(value * 10 ** -digit) / 10 ** -digit : Math.round(value / 10 ** digit) * 10 ** digit;
}

/** Lays out readings as rows of marks on one scale; marks of a row are spread over its height by their order alone. */
export function layOutStrip({ marks, rows, domain, width }: StripInput): Strip {
  const counts = new Uint32Array(rows);
  for (const row of marks.row) counts[row]! += 1;
  let top = 0;
  const places = Array.from(counts, (count) => {
    const height = count === 0 ? EMPTY_ROW : Math.min(TALLEST_ROW, EMPTY_ROW + 5 * Math.sqrt(count));
    const place = { top, height: Math.round(height) };
    top += place.height;
    return place;
  });
  const paths = places.map((): [string[], string[]] => [[], []]);
  const asides = places.map(() => ({ above: 0, below: 0, higher: 0, lower: 0 }));
  const drawn = new Uint32Array(rows);
  const cells = places.map(({ height }, row) =>
    counts[row]! > CROWDED ? new Uint8Array(2 * (Math.ceil(width / CELL) + 1) * Math.ceil(height / CELL)) : undefined,
  );
  marks.row.forEach((row, index) => {
    const aside = asides[row]!;
    const beyond = marks.beyond[index] ?? 0;
    if (beyond === 1) aside.above += 1;
    else if (beyond === -1) aside.below += 1;
    if (beyond !== 0) return;
    const x = stripPlace(domain, width, marks.value[index]!);
    if (x < 0) aside.lower += 1;
    else if (x > width) aside.higher += 1;
    if (!(x >= 0 && x <= width)) return;
    const place = places[row]!;
    const spread = (0.5 + drawn[row]! * GOLDEN) % 1;
    drawn[row]! += 1;
    const y = place.top + 2 * REACH + spread * (place.height - 4 * REACH);
    const shape = marks.shape[index] === 0 ? 0 : 1;
    const cell = cellOf(x, y - place.top, place.height) * 2 + shape;
    if (cells[row]?.[cell] === 1) return;
    if (cells[row]) cells[row][cell] = 1;
    paths[row]![shape].push(shape === 0 ? crossAt(x, y) : ringAt(x, y));
  });
  return {
    rows: places.map((place, row) => ({
      ...place,
      paths: [paths[row]![0].join(''), paths[row]![1].join('')],
      aside: asides[row]!,
    })),
    height: top,
    ticks: ticksOf(domain, width),
  };
}

/** The number of the square in which a mark lies, within its row. */
function cellOf(x: number, y: number, height: number): number {
  return Math.floor(x / CELL) * Math.ceil(height / CELL) + Math.floor(y / CELL);
}

/** Path data of the mark of a shape by itself, for a legend. */
export function stripMark(shape: 0 | 1, x: number, y: number): string {
  return shape === 0 ? crossAt(x, y) : ringAt(x, y);
}

/** What the readings of each row come to, for the table beside the strip. */
export function summariseRows(marks: StripMarks, rows: number): readonly RowSummary[] {
  return Array.from({ length: rows }, (_, row) => {
    const numbers = marks.value.filter((_value, index) => marks.row[index] === row && marks.beyond[index] === 0);
    const count = (beyond: number): number =>
      marks.row.reduce((sum, own, index) => sum + (own === row && marks.beyond[index] === beyond ? 1 : 0), 0);
    return {
      numbers: numbers.length,
      above: count(1),
      below: count(-1),
      lowest: min(numbers) ?? NaN,
      median: median(numbers) ?? NaN,
      highest: max(numbers) ?? NaN,
    };
  });
}

function padded(low: number, high: number): StripDomain {
  const air = (high - low) * 0.04 || Math.abs(high) * 0.1 || 1;
  const [nicest = low, highest = high] = scaleLinear()
    .domain([low >= 0 ? Math.max(0, low - air) : low - air, high + air])
    .nice(20)
    .domain();
  return { low: nicest, high: highest, log: false };
}

function ticksOf(domain: StripDomain, width: number): readonly StripTick[] {
  const room = Math.max(2, Math.floor(width / TICK_ROOM));
  const { low, high, log } = domain;
  const values = log ? logTicks(low, high, room) : scaleLinear().domain([low, high]).ticks(Math.min(10, room));
  return values.map((value) => ({ value, x: stripPlace(domain, width, value) }));
}

/** Powers of ten, thinned to what there is room for; with 2 and 5 times them where the decades are few. */
function logTicks(low: number, high: number, room: number): readonly number[] {
  const powers = scaleLog().domain([low, high]).ticks().filter((value) => Number.isInteger(roundedLog(value))); // prettier-ignore
  if (powers.length * 3 <= room) {
    return scaleLog().domain([low, high]).ticks().filter((value) => /^[125]/.test(value.toExponential())); // prettier-ignore
  }
  const step = Math.ceil(powers.length / room);
  return powers.filter((value) => roundedLog(value) % step === 0);
}

function roundedLog(value: number): number {
  return Number(Math.log10(value).toFixed(9));
}

function crossAt(x: number, y: number): string {
  return `M${tidy(x - REACH)} ${tidy(y)}h${2 * REACH}M${tidy(x)} ${tidy(y - REACH)}v${2 * REACH}`;
}

function ringAt(x: number, y: number): string {
  return `M${tidy(x - REACH)} ${tidy(y)}a${REACH} ${REACH} 0 1 0 ${2 * REACH} 0a${REACH} ${REACH} 0 1 0 ${-2 * REACH} 0`;
}

function tidy(place: number): number {
  return Math.round(place * 10) / 10;
}

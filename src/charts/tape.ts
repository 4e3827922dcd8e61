/** A band as the tape draws it: both limits in one unit, an open side infinite. */
export interface TapeBand {
  readonly low: number;
  readonly high: number;
}

/** What the meter answered: a number, or only that the quantity lies beyond what the meter can show. */
export type TapeReading =
  | {
      readonly kind: 'value';
      readonly value: number;
      /** Expanded uncertainty in the band's unit; `NaN` where unknown. */
      readonly uncertainty: number;
    }
  | { readonly kind: 'above' }
  | { readonly kind: 'below' };

export interface TapeInput {
  readonly band?: TapeBand;
  readonly reading?: TapeReading;
  /** Whether the quantity may span decades, as resistance does: a wide or one-sided band then gets a logarithmic scale. */
  readonly decades: boolean;
}

/** The mark of a reading; positions are shares of the tape's width, from 0 at its left end to 1. */
export type TapeMark =
  | { readonly kind: 'tick'; readonly at: number; readonly whisker?: TapeSpan }
  | { readonly kind: 'arrow'; readonly to: 'left' | 'right' }
  | { readonly kind: 'ring'; readonly to: 'left' | 'right' };

interface TapeSpan {
  readonly from: number;
  readonly to: number;
}

/** The tolerance tape: a scale on which every low limit stands at a quarter and every high limit at three quarters. */
export interface Tape {
  readonly band?: TapeSpan;
  /** Where the band's finite limits stand. */
  readonly limits: readonly number[];
  readonly mark?: TapeMark;
}

export const LOW_AT = 0.25;
export const HIGH_AT = 0.75;
/** Share of the tape that one decade takes where only one limit is known: three decades fit beyond the limit. */
export const DECADE = LOW_AT / 3;
/** From this ratio of its limits on a band of resistances is drawn by decades. */
const DECADES_FROM = 10;

/** Lays out the tolerance tape of one reading against its band; without a band there is no scale, hence no mark. */
export function layOutTape({ band, reading, decades }: TapeInput): Tape {
  if (band === undefined) return { limits: [] };
  const low = Number.isFinite(band.low);
  const high = Number.isFinite(band.high);
  if (!low && !high) return { limits: [] };
  const mark = reading === undefined ? undefined : markOf(reading, scaleOf(band, decades));
  return {
    band: { from: low ? LOW_AT : 0, to: high ? HIGH_AT : 1 },
    limits: [...(low ? [LOW_AT] : []), ...(high ? [HIGH_AT] : [])],
    ...(mark === undefined ? {} : { mark }),
  };
}

type Scale = (value: number) => number;

function markOf(reading: TapeReading, scale: Scale): TapeMark | undefined {
  if (reading.kind !== 'value') return { kind: 'ring', to: reading.kind === 'above' ? 'right' : 'left' };
  const at = scale(reading.value);
  if (Number.isNaN(at)) return undefined;
  if (at < 0) return { kind: 'arrow', to: 'left' };
  if (at > 1) return { kind: 'arrow', to: 'right' };
  if (Number.isNaN(reading.uncertainty)) return { kind: 'tick', at };
  const from = clamp(scale(reading.value - reading.uncertainty));
  const to = clamp(scale(reading.value + reading.uncertainty));
  return { kind: 'tick', at, whisker: { from, to } };
}

function scaleOf({ low, high }: TapeBand, decades: boolean): Scale {
  const twoSided = Number.isFinite(low) && Number.isFinite(high);
  if (twoSided) {
    return decades && low > 0 && high / low >= DECADES_FROM ? decadesBetween(low, high) : linearBetween(low, high);
  }
  const limit = Number.isFinite(low) ? low : high;
  const at = Number.isFinite(low) ? LOW_AT : HIGH_AT;
  return decades && limit > 0 ? decadesFrom(limit, at) : linearFrom(limit, at);
}

function linearBetween(low: number, high: number): Scale {
  // A band of one value still needs a width: a hundredth of the value, or one unit around zero.
  const width = high - low || Math.abs(low) / 100 || 1;
  const middle = (low + high) / 2;
  return (value) => 0.5 + ((value - middle) / width) * (HIGH_AT - LOW_AT);
}

function decadesBetween(low: number, high: number): Scale {
  const linear = linearBetween(Math.log10(low), Math.log10(high));
  return (value) => linear(logarithm(value));
}

/** Zero stands at the tape's left end, so that the distance from the limit can be seen in proportion. */
function linearFrom(limit: number, at: number): Scale {
  if (limit > 0) return (value) => (value / limit) * at;
  const unit = Math.abs(limit) || 1;
  return (value) => at + ((value - limit) / unit) * LOW_AT;
}

function decadesFrom(limit: number, at: number): Scale {
  return (value) => at + (logarithm(value) - Math.log10(limit)) * DECADE;
}

/** Zero and less, which a meter may show for a short, lie below every decade. */
function logarithm(value: number): number {
  return value > 0 ? Math.log10(value) : Number.isNaN(value) ? NaN : -Infinity;
}

function clamp(at: number): number {
  return Math.max(0, Math.min(1, at));
}

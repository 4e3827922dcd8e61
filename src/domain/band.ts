import { rectifiedPeak } from './mains.ts';
import type { Mode, Stage, State } from './reading.ts';

/** Where a band comes from. */
export const BASES = ['board marking', 'learned', 'common practice', 'typed in'] as const;
export type Basis = (typeof BASES)[number];

/** What a reading should be, in the SI unit of the band's mode. */
export type Expectation =
  | { readonly kind: 'between'; readonly low: number; readonly high: number }
  | { readonly kind: 'percent'; readonly nominal: number; readonly percent: number }
  | { readonly kind: 'at least'; readonly limit: number }
  | { readonly kind: 'at most'; readonly limit: number }
  | { readonly kind: 'open'; readonly limit: number }
  | { readonly kind: 'shorted'; readonly limit: number }
  | {
      readonly kind: 'rectified mains';
      /** How far below the computed peak a reading may lie, in percent: the ripple under load. */
      readonly below: number;
      /** How far above it, in percent. */
      readonly above: number;
      /** The mains to assume where none was measured, in volts r.m.s. */
      readonly mains?: number;
    };

export const BAND_KINDS = ['between', 'percent', 'at least', 'at most', 'open', 'shorted', 'rectified mains'] as const;
export type BandKind = Expectation['kind'];

/** A tolerance band of one family and point; without `stage` it holds at every stage in its mode. */
export interface Band {
  readonly family: string;
  readonly point: string;
  readonly mode: Mode;
  readonly stage?: Stage;
  readonly expects: Expectation;
  readonly basis: Basis;
  readonly author?: string;
  /** Day on which it was set, ISO 8601. */
  readonly date?: string;
}

/** Whether a band says what a point reads on a board that runs: a voltage or a current, at every stage or when live. */
export function isLiveBand({ mode, stage }: Pick<Band, 'mode' | 'stage'>): boolean {
  return (stage === undefined || stage === 'live') && POWERED_MODES.includes(mode);
}

const POWERED_MODES: readonly Mode[] = ['DC volts', 'AC volts', 'current'];

/** The interval in which a reading passes, both ends included; an open side is infinite. */
export interface Limits {
  readonly low: number;
  readonly high: number;
}

/**
 * The limits of a band, in its SI unit.
 * @param mains - volts r.m.s. measured in the same repair, for *rectified mains*
 * @returns undefined where the band follows a mains voltage that nobody measured or stated
 */
export function limitsOf(expects: Expectation, mains?: number): Limits | undefined {
  switch (expects.kind) {
    case 'between':
      return { low: expects.low, high: expects.high };
    case 'percent': {
      const reach = (Math.abs(expects.nominal) * expects.percent) / 100;
      return { low: decimal(expects.nominal - reach), high: decimal(expects.nominal + reach) };
    }
    case 'at least':
    case 'open':
      return { low: expects.limit, high: Infinity };
    case 'at most':
    case 'shorted':
      return { low: -Infinity, high: expects.limit };
    case 'rectified mains': {
      const rms = mains ?? expects.mains;
      if (rms === undefined) return undefined;
      const peak = rectifiedPeak(rms);
      return { low: peak * (1 - expects.below / 100), high: peak * (1 + expects.above / 100) };
    }
  }
}

/** Takes the last bits of binary rounding off a computed limit, so that a reading shown as exactly the limit lies on it. */
function decimal(value: number): number {
  return Number(value.toPrecision(12));
}

/** Why a band cannot be used, as a sentence; undefined where it can. */
export function bandFault(expects: Expectation): string | undefined {
  const numbers = Object.values(expects).filter((entry): entry is number => typeof entry === 'number');
  if (numbers.some((number) => !Number.isFinite(number))) return 'A limit of this band is no number.';
  if (expects.kind === 'between' && expects.low > expects.high)
    return 'The low limit lies above the high limit: swap them.';
  if (expects.kind === 'percent' && expects.percent <= 0) return 'A percent band needs a percentage above zero.';
  if (expects.kind === 'percent' && expects.nominal === 0)
    return 'A percent band needs a nominal value other than zero.';
  if (expects.kind === 'rectified mains' && (expects.below < 0 || expects.above < 0 || expects.below >= 100)) {
    return 'A rectified-mains band allows from 0 to under 100 % below and 0 % or more above the peak.';
  }
  return undefined;
}

/** Whether an answer lies within limits; undefined where it is neither a number nor surely beyond one side. */
export function isWithin({ low, high }: Limits, state: State, value: number): boolean | undefined {
  if (state === 'value') return value >= low && value <= high;
  if (state === 'over-range') return high === Infinity;
  if (state === 'below-range') return low === -Infinity;
  return undefined;
}

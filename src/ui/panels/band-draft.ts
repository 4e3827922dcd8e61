import { bandFault, limitsOf, type BandKind, type Expectation, type Limits } from '../../domain/band.ts';
import { markedVolts, usualPercent } from '../../domain/marking.ts';
import type { DecimalMark, Unit } from '../../domain/quantity.ts';
import { numberField, quantityField, readPercent, readQuantity } from './band-typed.ts';

/** A band while it is typed: its kind, and the text of every field, those of other kinds included. */
export interface BandDraft {
  readonly kind: BandKind;
  readonly low: string;
  readonly high: string;
  readonly nominal: string;
  readonly percent: string;
  readonly below: string;
  readonly above: string;
  readonly mains: string;
}

export type DraftField = Exclude<keyof BandDraft, 'kind'>;
export type LimitSide = 'low' | 'high';

/** Which fields a kind of band is made of, in the order in which they are typed. */
export const FIELDS_OF: Readonly<Record<BandKind, readonly DraftField[]>> = {
  between: ['low', 'high'],
  percent: ['nominal', 'percent'],
  'at least': ['low'],
  'at most': ['high'],
  open: ['low'],
  shorted: ['high'],
  'rectified mains': ['below', 'above', 'mains'],
};

export const FIELD_LABELS: Readonly<Record<DraftField, string>> = {
  low: 'low limit',
  high: 'high limit',
  nominal: 'nominal',
  percent: '± %',
  below: '% below the peak',
  above: '% above the peak',
  mains: 'mains, if not measured',
};

const PERCENTS: readonly DraftField[] = ['percent', 'below', 'above'];
const EMPTY: Omit<BandDraft, 'kind'> = { low: '', high: '', nominal: '', percent: '', below: '', above: '', mains: '' };

/** What a draft says, or why it says nothing yet, as a sentence with the field that is to blame. */
export type DraftReading =
  { readonly expects: Expectation } | { readonly fault: string; readonly field?: DraftField | undefined };

/** The limits whose handles can be moved in a kind of band. */
export function movableSides(kind: BandKind): readonly LimitSide[] {
  switch (kind) {
    case 'between':
    case 'percent':
      return ['low', 'high'];
    case 'at least':
    case 'open':
      return ['low'];
    case 'at most':
    case 'shorted':
      return ['high'];
    case 'rectified mains':
      return [];
  }
}

/** A draft of a band that is set already. */
export function draftOf(expects: Expectation, unit: Unit, mark: DecimalMark): BandDraft {
  const { kind } = expects;
  const quantity = (value: number): string => quantityField(value, unit, mark);
  const number = (value: number): string => numberField(value, mark);
  switch (kind) {
    case 'between':
      return { ...EMPTY, kind, low: quantity(expects.low), high: quantity(expects.high) };
    case 'percent':
      return { ...EMPTY, kind, nominal: quantity(expects.nominal), percent: number(expects.percent) };
    case 'at least':
    case 'open':
      return { ...EMPTY, kind, low: quantity(expects.limit) };
    case 'at most':
    case 'shorted':
      return { ...EMPTY, kind, high: quantity(expects.limit) };
    case 'rectified mains': {
      const mains = expects.mains === undefined ? '' : quantityField(expects.mains, 'V', mark);
      return { ...EMPTY, kind, below: number(expects.below), above: number(expects.above), mains };
    }
  }
}

/** The draft for a check without a band: the board's marking with its usual tolerance where the point's name tells it, else two empty limits. */
export function emptyDraft(point: string, unit: Unit, mark: DecimalMark): BandDraft {
  const nominal = unit === 'V' ? markedVolts(point) : undefined;
  if (nominal === undefined) return { ...EMPTY, kind: 'between' };
  return draftOf({ kind: 'percent', nominal, percent: usualPercent(point) }, unit, mark);
}

/** What a draft expects, or the first thing that is wrong with it. */
export function readDraft(draft: BandDraft, unit: Unit, mark: DecimalMark): DraftReading {
  const numbers: Partial<Record<DraftField, number>> = {};
  for (const field of FIELDS_OF[draft.kind]) {
    const text = draft[field];
    if (text.trim() === '') {
      if (field === 'mains') continue;
      return { fault: emptyFault(draft.kind, field), field };
    }
    const typed = PERCENTS.includes(field)
      ? readPercent(text, mark)
      : readQuantity(text, field === 'mains' ? 'V' : unit, mark);
    if ('fault' in typed) return { fault: typed.fault, field };
    numbers[field] = typed.value;
  }
  const expects = expectationOf(draft.kind, numbers);
  const fault = bandFault(expects);
  return fault === undefined ? { expects } : { fault, field: FIELDS_OF[draft.kind].at(-1) };
}

/** A draft turned to another kind; limits go along where both kinds can have them. */
export function turnedTo(draft: BandDraft, kind: BandKind, unit: Unit, mark: DecimalMark): BandDraft {
  const read = readDraft(draft, unit, mark);
  const limits = 'expects' in read ? limitsOf(read.expects) : undefined;
  if (limits === undefined) return { ...draft, kind };
  const filled = (value: number, text: string): string =>
    Number.isFinite(value) ? quantityField(value, unit, mark) : text;
  const low = filled(limits.low, draft.low);
  const high = filled(limits.high, draft.high);
  if (kind !== 'percent' || draft.kind === 'percent' || !Number.isFinite(limits.low + limits.high)) {
    return { ...draft, kind, low, high };
  }
  const nominal = Number(((limits.low + limits.high) / 2).toPrecision(6));
  const percent = Number((((limits.high - limits.low) / 2 / Math.abs(nominal)) * 100).toPrecision(3));
  return {
    ...draft,
    kind,
    low,
    high,
    nominal: quantityField(nominal, unit, mark),
    percent: numberField(percent, mark),
  };
}

/** A draft after one of its limits was moved to `value`; a percent band keeps its nominal and takes the distance as its percentage. */
export function withLimit(draft: BandDraft, side: LimitSide, value: number, unit: Unit, mark: DecimalMark): BandDraft {
  if (draft.kind !== 'percent') return { ...draft, [side]: quantityField(value, unit, mark) };
  const nominal = readQuantity(draft.nominal, unit, mark);
  if ('fault' in nominal || nominal.value === 0) return draft;
  const reach = side === 'high' ? value - nominal.value : nominal.value - value;
  const percent = Number(((reach / Math.abs(nominal.value)) * 100).toPrecision(6));
  return percent > 0 ? { ...draft, percent: numberField(percent, mark) } : draft;
}

/** The limits that a draft comes to; undefined while it says nothing, or where it waits for a mains reading. */
export function draftLimits(read: DraftReading): Limits | undefined {
  return 'expects' in read ? limitsOf(read.expects) : undefined;
}

function expectationOf(kind: BandKind, numbers: Partial<Record<DraftField, number>>): Expectation {
  const { low = NaN, high = NaN, nominal = NaN, percent = NaN, below = NaN, above = NaN, mains } = numbers;
  switch (kind) {
    case 'between':
      return { kind, low, high };
    case 'percent':
      return { kind, nominal, percent };
    case 'at least':
    case 'open':
      return { kind, limit: low };
    case 'at most':
    case 'shorted':
      return { kind, limit: high };
    case 'rectified mains':
      return { kind, below, above, ...(mains === undefined ? {} : { mains }) };
  }
}

function emptyFault(kind: BandKind, field: DraftField): string {
  if (kind === 'percent' && field === 'nominal') return 'A percent band needs a nominal value: fill it in.';
  return `This band has no ${FIELD_LABELS[field].replace('± %', 'percentage')} yet: fill it in.`;
}

import { DAY } from '../../domain/day.ts';
import type { FamilyQuery, RepairsChosen } from '../../session/answers.ts';

/** What the address of a family's page asks for, beside the family. Days are midnights in milliseconds counted as if UTC. */
export interface FamilyAsked {
  readonly from?: number;
  /** The last day, whole. */
  readonly to?: number;
  readonly complaint?: string;
  readonly meter?: string;
  /** The workplace at which they were repaired. */
  readonly bench?: string;
  /** The day up to which boards were watched for coming back. */
  readonly watched?: number;
  /** Complaint of the board on the bench. */
  readonly told?: string;
  /** Parts of it that measured good. */
  readonly good: readonly string[];
  /** The part that is followed over time. */
  readonly part?: string;
  readonly kitShare: number;
  readonly stockWeeks: number;
  readonly stockEnough: number;
  readonly prices: ReadonlyMap<string, number>;
  readonly fee?: number;
  /** Another family to show beside this one. */
  readonly beside?: string;
}

/** Changes of it; `undefined` takes an entry away. */
export type AskedChanges = { readonly [Key in keyof FamilyAsked]?: FamilyAsked[Key] | undefined };

export const KIT_SHARE = 0.9;
export const STOCK_WEEKS = 4;
export const STOCK_ENOUGH = 0.95;
const MOST_WEEKS = 104;

/** Reads the address of a family's page; what is not understood is passed over, as an address may be typed by hand. */
export function readFamilyAsked(query: string): FamilyAsked {
  const parameters = new URLSearchParams(query);
  const text = (name: string): string | undefined => parameters.get(name) ?? undefined;
  const within = (name: string, low: number, high: number): number | undefined => {
    const number = Number(text(name) ?? NaN);
    return number >= low && number <= high ? number : undefined;
  };
  const prices = [...parameters].flatMap(([name, value]) => {
    const price = name.startsWith('price.') && value.trim() !== '' ? Number(value) : NaN;
    return price >= 0 && Number.isFinite(price) ? ([[name.slice('price.'.length), price]] as const) : [];
  });
  const fee = text('fee')?.trim() === '' ? undefined : within('fee', 0, Number.MAX_VALUE);
  return {
    ...entry('from', readDay(text('from'))),
    ...entry('to', readDay(text('to'))),
    ...entry('complaint', text('complaint')),
    ...entry('meter', text('meter')),
    ...entry('bench', text('bench')),
    ...entry('watched', readDay(text('watched'))),
    ...entry('told', text('told')),
    ...entry('part', text('part')),
    ...entry('fee', fee),
    ...entry('beside', text('beside')),
    good: parameters.getAll('good'),
    kitShare: shareOf(within('kit', 1, 100)) ?? KIT_SHARE,
    stockWeeks: Math.round(within('weeks', 1, MOST_WEEKS) ?? STOCK_WEEKS),
    stockEnough: shareOf(within('enough', 50, 99.9)) ?? STOCK_ENOUGH,
    prices: new Map(prices),
  };
}

/** Writes what `readFamilyAsked` reads; what is as usual is left out. */
export function writeFamilyAsked(asked: FamilyAsked): URLSearchParams {
  const { from, to, watched, kitShare, stockWeeks, stockEnough, fee } = asked;
  const texts: readonly (readonly [string, string | undefined])[] = [
    ['from', from === undefined ? undefined : writeDay(from)],
    ['to', to === undefined ? undefined : writeDay(to)],
    ['complaint', asked.complaint],
    ['meter', asked.meter],
    ['bench', asked.bench],
    ['watched', watched === undefined ? undefined : writeDay(watched)],
    ['told', asked.told],
    ...asked.good.map((part) => ['good', part] as const),
    ['part', asked.part],
    ['kit', kitShare === KIT_SHARE ? undefined : percent(kitShare)],
    ['weeks', stockWeeks === STOCK_WEEKS ? undefined : String(stockWeeks)],
    ['enough', stockEnough === STOCK_ENOUGH ? undefined : percent(stockEnough)],
    ['fee', fee === undefined ? undefined : String(fee)],
    ...[...asked.prices].map(([part, price]) => [`price.${part}`, String(price)] as const),
    ['beside', asked.beside],
  ];
  return new URLSearchParams(texts.flatMap(([name, text]) => (text === undefined ? [] : [[name, text]])));
}

/** What is asked, with some entries changed or taken away. */
export function withAsked(asked: FamilyAsked, changes: AskedChanges): FamilyAsked {
  const entries = Object.entries({ ...asked, ...changes }).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as unknown as FamilyAsked;
}

/** The filters of a page as the worker takes them. */
export function chosenBy({ from, to, complaint, meter, bench }: FamilyAsked): RepairsChosen {
  return {
    ...entry('from', from),
    ...entry('to', to === undefined ? undefined : to + DAY - 1),
    ...entry('complaint', complaint),
    ...entry('meter', meter),
    ...entry('bench', bench),
  };
}

/** The question to the worker. */
export function familyQuery(family: string, asked: FamilyAsked): FamilyQuery {
  const { prices, fee, told, good } = asked;
  return {
    family,
    ...chosenBy(asked),
    ...entry('watched', asked.watched),
    kitShare: asked.kitShare,
    stockWeeks: asked.stockWeeks,
    stockEnough: asked.stockEnough,
    ...(prices.size === 0 ? {} : { prices: [...prices] }),
    ...entry('fee', fee),
    soFar: { ...entry('complaint', told), cleared: good },
  };
}

/** Reads a day such as `2026-03-14`; undefined where it is none. */
export function readDay(text: string | undefined): number | undefined {
  if (text === undefined || !/^\d{4}-\d{2}-\d{2}$/.test(text)) return undefined;
  const time = Date.parse(`${text}T00:00:00Z`);
  // A day such as 31 February is read as one in March.
  return Number.isNaN(time) || writeDay(time) !== text ? undefined : time;
}

function writeDay(time: number): string {
  return new Date(time).toISOString().slice(0, 10);
}

function shareOf(percent: number | undefined): number | undefined {
  return percent === undefined ? undefined : Number((percent / 100).toPrecision(9));
}

function percent(share: number): string {
  return String(Number((share * 100).toFixed(6)));
}

function entry<Name extends string, Value>(name: Name, value: Value | undefined): Partial<Record<Name, Value>> {
  return value === undefined ? {} : ({ [name]: value } as Record<Name, Value>);
}

import { SI_PREFIXES } from '../../domain/prefix.ts';
import { scaleBy, UNITS, type DecimalMark, type Unit } from '../../domain/quantity.ts';
import type { Filter, ListedField, ReadingsCount, ReadingsQuery } from '../../session/answers.ts';
import { countOf, countText } from '../words.ts';

export type FilterField = Filter['field'];

/** Values named in a sentence before the rest are counted. */
const VALUES_NAMED = 3;

/** What a filter asks for, as a sentence without its full stop: `family is HERON-48 or PLOVER-32`. */
export function filterSentence(filter: Filter, mark: DecimalMark): string {
  if ('oneOf' in filter)
    return `${filter.field} is ${orText(
      filter.oneOf.map((value) => value || 'not stated'),
      mark,
    )}`;
  if ('contains' in filter) return `a text holds “${filter.contains}”`;
  const text = (bound: number): string =>
    filter.field === 'time' ? writeTime(bound).replace('T', ' ') : writeNumber(bound, mark, filter.unit);
  const { field, from, to } = filter;
  if (from !== undefined && to !== undefined) return `${field} is ${text(from)} to ${text(to)}`;
  if (from !== undefined) return `${field} is ${text(from)} or ${field === 'time' ? 'later' : 'more'}`;
  return `${field} is ${to === undefined ? 'anything' : text(to)} or ${field === 'time' ? 'earlier' : 'less'}`;
}

/** The sentence that says how many readings a query lets through, or what to do where it lets none. */
export function countSentence(
  query: ReadingsQuery,
  { readings, repairs, outOfBand }: ReadingsCount,
  mark: DecimalMark,
): string {
  if (readings === 0) {
    return query.filters.length > 0
      ? 'No reading fits all of this: remove something.'
      : 'No readings yet: bring a log in.';
  }
  const outside = outOfBand === 0 ? 'none' : countText(outOfBand, mark);
  return `${countOf(readings, 'reading', mark)} of ${countOf(repairs, 'repair', mark)}, ${outside} out of band`;
}

/** The filter on a field, if there is one. */
export function filterOn(query: ReadingsQuery, field: FilterField): Filter | undefined {
  return query.filters.find((filter) => filter.field === field);
}

/** The query without its filter on a field. */
export function withoutFilter(query: ReadingsQuery, field: FilterField): ReadingsQuery {
  return { ...query, filters: query.filters.filter((filter) => filter.field !== field) };
}

/** The query with a filter in the place of the one on the same field; one that asks for nothing takes that away. */
export function withFilter(query: ReadingsQuery, filter: Filter): ReadingsQuery {
  if (isEmpty(filter)) return withoutFilter(query, filter.field);
  const present = filterOn(query, filter.field) !== undefined;
  const filters = present
    ? query.filters.map((other) => (other.field === filter.field ? filter : other))
    : [...query.filters, filter];
  return { ...query, filters };
}

/** The values that a query lets through of a field; none are named where it asks nothing of it. */
export function valuesOn(query: ReadingsQuery, field: ListedField): readonly string[] {
  const filter = filterOn(query, field);
  return filter !== undefined && 'oneOf' in filter ? filter.oneOf : [];
}

/** The query with one value more or less of a field. */
export function toggleValue(query: ReadingsQuery, field: ListedField, value: string): ReadingsQuery {
  const values = valuesOn(query, field);
  const oneOf = values.includes(value) ? values.filter((other) => other !== value) : [...values, value];
  return withFilter(query, { field, oneOf });
}

/** Reads a time as a field of a form writes it, as local wall milliseconds counted as if UTC; undefined where it is none. */
export function readTime(text: string): number | undefined {
  const time = /^\d{4}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d(?:\.\d{1,3})?)?)?$/.test(text) ? Date.parse(zoned(text)) : NaN;
  return Number.isNaN(time) ? undefined : time;
}

/** Writes a time as a field of a form reads it, to the minute where it has no seconds. */
export function writeTime(time: number): string {
  const text = new Date(time).toISOString().replace(/(?:\.000)?Z$/, '');
  return text.endsWith(':00') ? text.slice(0, -3) : text;
}

const NUMBER = /^([+-]?\d+(?:[.,]\d+)?)\s*(\p{L}?)([VΩFA]?)$/u;

/** A number of the SI unit that was written with it, if one was. */
export interface TypedNumber {
  readonly value: number;
  readonly unit?: Unit;
}

/** Reads a number with or without an SI prefix and unit, such as `12,7 V` or `640k`; undefined where it is none. */
export function readNumber(text: string): TypedNumber | undefined {
  const match = NUMBER.exec(text.trim().replaceAll('\u2212', '-').replaceAll('\u2126', 'Ω').replaceAll('\u03bc', 'µ'));
  if (match === null) return undefined;
  const [, digits = '', letter = '', last = ''] = match;
  // A letter alone is a unit where it is one, else a prefix.
  const alone = UNITS.find((unit) => last === '' && unit === letter);
  const unit = alone ?? UNITS.find((one) => one === last);
  const prefix = alone === undefined ? letter : '';
  const power = prefix === '' ? 0 : SI_PREFIXES.get(prefix === 'u' ? 'µ' : prefix);
  return power === undefined
    ? undefined
    : { value: scaleBy(Number(digits.replace(',', '.')), power), ...(unit && { unit }) };
}

/** Writes a number of an SI unit as `readNumber` reads it. */
export function writeNumber(value: number, mark: DecimalMark, unit: Unit | '' = ''): string {
  const magnitude = Math.abs(value);
  const found = PREFIXES_WRITTEN.find(([, power]) => magnitude >= 10 ** power) ?? ['', 0];
  const [symbol, power] = magnitude === 0 || (magnitude >= 1 && magnitude < 10_000) ? ['', 0] : found;
  const digits = String(Number(scaleBy(value, -power).toPrecision(12))).replace('-', '\u2212');
  return `${mark === ',' ? digits.replace('.', ',') : digits}${symbol + unit === '' ? '' : `\u00a0${symbol}${unit}`}`;
}

const PREFIXES_WRITTEN: readonly (readonly [string, number])[] = ['G', 'M', 'k', '', 'm', 'µ', 'n', 'p'].map(
  (symbol) => [symbol, SI_PREFIXES.get(symbol) ?? 0],
);

function isEmpty(filter: Filter): boolean {
  if ('oneOf' in filter) return filter.oneOf.length === 0;
  if ('contains' in filter) return filter.contains === '';
  return filter.from === undefined && filter.to === undefined;
}

/** A date alone is read as UTC already; a time needs to be told. */
function zoned(text: string): string {
  return text.includes('T') ? `${text}Z` : text;
}

function orText(values: readonly string[], mark: DecimalMark): string {
  const named = values.slice(0, values.length > VALUES_NAMED + 1 ? VALUES_NAMED : values.length);
  const others = values.length - named.length;
  const last = others > 0 ? `${countText(others, mark)} others` : named.pop();
  return named.length === 0 ? (last ?? 'nothing') : `${named.join(', ')} or ${last ?? ''}`;
}

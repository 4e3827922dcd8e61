import type { Check } from '../domain/check.ts';
import { UNITS } from '../domain/quantity.ts';
import { MODES, STAGES } from '../domain/reading.ts';
import { LISTED_FIELDS, type Filter, type ReadingsQuery, type SortField } from '../session/answers.ts';

/** The places of the page, in the order of the work. */
export const PLACES = ['shift', 'readings', 'repairs', 'bands', 'families'] as const;
export type Place = (typeof PLACES)[number];

/** What the page's address asks for. */
export interface Route {
  readonly place: Place;
  /** The one repair or family that is meant. */
  readonly item?: string;
  /** What of that one is meant, where it is not the whole: `sheet` for the sheet that is printed, `kit` for that of a parts kit, `edit` for its record. */
  readonly view?: string;
  /** Filters and order, as the address writes them after its question mark; empty for none. */
  readonly query: string;
}

const SORT_FIELDS: readonly string[] = [...LISTED_FIELDS, 'time', 'reading', 'line'];

/** Reads a hash such as `#/repairs/T-0131`; an address that names no place means the first. */
export function parseRoute(hash: string): Route {
  const [path = '', ...rest] = hash.replace(/^#\/?/, '').split('?');
  const [name, item, view] = path.split('/').map(decoded);
  const place = PLACES.find((candidate) => candidate === name) ?? PLACES[0];
  const query = rest.join('?');
  if (item === undefined || item === '') return { place, query };
  return view === undefined || view === '' ? { place, item, query } : { place, item, view, query };
}

/** Writes the hash of a place, of one of its items, or of one of its views. */
export function hashOf(place: Place, item?: string, query?: string | URLSearchParams): string {
  const tail = query === undefined ? '' : query.toString();
  return `#/${place}${item === undefined ? '' : `/${encodeURIComponent(item)}`}${tail === '' ? '' : `?${tail}`}`;
}

/** What the Bands place can show beside its tables: one check, proposals, one family's points and parts, the meters. */
export const BAND_VIEWS = ['check', 'proposals', 'family', 'meters'] as const;
export type BandView = (typeof BAND_VIEWS)[number];

/** The address of a view of the Bands place, or of its tables; what it is about may be as little as a family. */
export function bandsHash(view?: BandView, about: Partial<Check> = {}): string {
  return hashOf('bands', view, new URLSearchParams(Object.entries(about)));
}

/** Reads what an address of the Bands place is about; a stage or mode that is none is passed over. */
export function readCheck(query: string): Partial<Check> {
  const parameters = new URLSearchParams(query);
  const family = parameters.get('family');
  const point = parameters.get('point');
  const stage = STAGES.find((one) => one === parameters.get('stage'));
  const mode = MODES.find((one) => one === parameters.get('mode'));
  return {
    ...(family === null ? {} : { family }),
    ...(point === null ? {} : { point }),
    ...(stage === undefined ? {} : { stage }),
    ...(mode === undefined ? {} : { mode }),
  };
}

/** The address of the sheet that goes out with a repaired board. */
export function boardSheetHash(repair: string): string {
  return `${hashOf('repairs', repair)}/sheet`;
}

/** The address at which a repair's record is corrected by hand; without a repair, at which one is added. */
export function repairFormHash(repair?: string): string {
  return repair === undefined ? hashOf('repairs', undefined, 'add') : `${hashOf('repairs', repair)}/edit`;
}

/** The address of the sheet that sums up one day's work; without a day, the last one with readings. */
export function shiftSheetHash(day = ''): string {
  return hashOf('repairs', undefined, `sheet=${day}`);
}

/** The address of one of a family's sheets, how it fails or its parts kit, of the repairs and with the prices that its page's query names. */
export function familySheetHash(family: string, sheet: 'sheet' | 'kit', query = ''): string {
  return `${hashOf('families', family)}/${sheet}${query === '' ? '' : `?${query}`}`;
}

/** The address of what the readings say of the meters; not a path of its own, as any word there is a family's name. */
export function metersHash(): string {
  return hashOf('families', undefined, 'meters');
}

/** The address at which the grid shows the readings of a query. */
export function readingsHash(query: Partial<ReadingsQuery>): string {
  return hashOf('readings', undefined, writeReadingsQuery(query));
}

/** Writes filters and order as `family=HERON-48&time.from=0&text=Q1&sort=-reading`. */
export function writeReadingsQuery({ filters = [], sort = [] }: Partial<ReadingsQuery>): string {
  const parameters = new URLSearchParams();
  for (const filter of filters) {
    if ('oneOf' in filter) for (const value of filter.oneOf) parameters.append(filter.field, value);
    else if ('contains' in filter) parameters.append('text', filter.contains);
    else {
      if (filter.from !== undefined) parameters.append(`${filter.field}.from`, String(filter.from));
      if (filter.to !== undefined) parameters.append(`${filter.field}.to`, String(filter.to));
      if (filter.unit !== undefined) parameters.append(`${filter.field}.unit`, filter.unit);
    }
  }
  if (sort.length > 0) {
    parameters.append('sort', sort.map(({ field, descending }) => (descending ? '-' : '') + field).join(' '));
  }
  return parameters.toString();
}

/** Reads what `writeReadingsQuery` wrote; what is not understood is passed over, as an address may be typed by hand. */
export function readReadingsQuery(query: string): ReadingsQuery {
  const parameters = new URLSearchParams(query);
  const filters: Filter[] = [];
  for (const field of LISTED_FIELDS) {
    const oneOf = parameters.getAll(field);
    if (oneOf.length > 0) filters.push({ field, oneOf });
  }
  for (const field of ['time', 'reading'] as const) {
    const from = numberIn(parameters.get(`${field}.from`));
    const to = numberIn(parameters.get(`${field}.to`));
    if (from === undefined && to === undefined) continue;
    const unit = field === 'reading' ? UNITS.find((one) => one === parameters.get('reading.unit')) : undefined;
    filters.push({
      field,
      ...(from !== undefined && { from }),
      ...(to !== undefined && { to }),
      ...(unit && { unit }),
    });
  }
  const contains = parameters.get('text') ?? '';
  if (contains !== '') filters.push({ field: 'text', contains });
  const keys = (parameters.get('sort') ?? '').split(' ');
  const sort = keys.flatMap((key) => {
    const descending = key.startsWith('-');
    const field = descending ? key.slice(1) : key;
    return SORT_FIELDS.includes(field) ? [{ field: field as SortField, descending }] : [];
  });
  return { filters, sort };
}

function numberIn(text: string | null): number | undefined {
  if (text === null || text.trim() === '') return undefined;
  const number = Number(text);
  return Number.isFinite(number) ? number : undefined;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

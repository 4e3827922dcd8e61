import {
  DERIVED_FIELDS,
  GROUP_FIELDS,
  LISTED_FIELDS,
  type Grouping,
  type ReadingsQuery,
  type SortField,
} from '../../session/answers.ts';
import { readLayout, writeColumns, writeLayout, type ColumnLayout } from '../grid/column-layout.ts';
import { hashOf, parseRoute, readReadingsQuery, writeReadingsQuery } from '../route.ts';

/** All that an address says of the grid of readings; without a layout it says nothing of the columns. */
export interface ReadingsAddress {
  readonly query: ReadingsQuery;
  readonly layout?: ColumnLayout;
}

const SORT_FIELDS: readonly SortField[] = [...LISTED_FIELDS, ...DERIVED_FIELDS, 'time', 'reading', 'line'];

/** The address of readings with their filters, order, groups and columns, such as `#/readings?sort=-margin&group=family`. */
export function writeReadingsAddress({ query, layout }: ReadingsAddress): string {
  return addressOf(query, layout === undefined ? '' : writeLayout(layout));
}

/** The address under which a view is kept: it names the columns even where they are the first ones, so that opening it brings these back. */
export function writeViewAddress({ query, layout }: Required<ReadingsAddress>): string {
  return addressOf(query, writeColumns(layout));
}

/** A kept view's address as far as it is understood here, and whether that is all of it: it may come out of a backup of another version. */
export function readViewAddress(address: string): { readonly address: string; readonly whole: boolean } {
  const read = readReadingsAddress(parseRoute(address).query);
  const understood = read.layout === undefined ? writeReadingsAddress(read) : writeViewAddress({ ...read, layout: read.layout }); // prettier-ignore
  return { address: understood, whole: parametersOf(understood) === parametersOf(address) };
}

function parametersOf(address: string): string {
  const parameters = new URLSearchParams(parseRoute(address).query);
  parameters.sort();
  return parameters.toString();
}

function addressOf(query: ReadingsQuery, columns: string): string {
  const parameters = new URLSearchParams(writeReadingsQuery(query));
  const { group } = query;
  if (group !== undefined) {
    parameters.set('group', `${group.folded ? '-' : ''}${group.by}`);
    for (const label of group.except) parameters.append('but', label);
  }
  if (columns !== '') parameters.set('columns', columns);
  return hashOf('readings', undefined, parameters);
}

/** Reads what stands behind the question mark of such an address; what is not understood is passed over. */
export function readReadingsAddress(text: string): ReadingsAddress {
  const parameters = new URLSearchParams(text);
  const { filters } = readReadingsQuery(text);
  const sort = (parameters.get('sort') ?? '').split(' ').flatMap((key) => {
    const descending = key.startsWith('-');
    const field = SORT_FIELDS.find((candidate) => candidate === (descending ? key.slice(1) : key));
    return field === undefined ? [] : [{ field, descending }];
  });
  const group = readGrouping(parameters);
  const layout = readLayout(parameters.get('columns') ?? '');
  return { query: { filters, sort, ...(group && { group }) }, ...(layout && { layout }) };
}

function readGrouping(parameters: URLSearchParams): Grouping | undefined {
  const text = parameters.get('group') ?? '';
  const by = GROUP_FIELDS.find((field) => field === text.replace(/^-/, ''));
  return by && { by, folded: text.startsWith('-'), except: parameters.getAll('but') };
}

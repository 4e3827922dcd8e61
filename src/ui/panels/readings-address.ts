import {
  DERIVED_FIELDS,
  GROUP_FIELDS,
  LISTED_FIELDS,
  type Grouping,
  type ReadingsQuery,
  type SortField,
} from '../../session/answers.ts';
import { readLayout, writeLayout, type ColumnLayout } from '../grid/column-layout.ts';
import { hashOf, readReadingsQuery, writeReadingsQuery } from '../route.ts';

/** All that an address says of the grid of readings; without a layout it says nothing of the columns. */
export interface ReadingsAddress {
  readonly query: ReadingsQuery;
  readonly layout?: ColumnLayout;
}

const SORT_FIELDS: readonly SortField[] = [...LISTED_FIELDS, ...DERIVED_FIELDS, 'time', 'reading', 'line'];

/** The address of readings with their filters, order, groups and columns, such as `#/readings?sort=-margin&group=family`. */
export function writeReadingsAddress({ query, layout }: ReadingsAddress): string {
  const parameters = new URLSearchParams(writeReadingsQuery(query));
  const { group } = query;
  if (group !== undefined) {
    parameters.set('group', `${group.folded ? '-' : ''}${group.by}`);
    for (const label of group.except) parameters.append('but', label);
  }
  const columns = layout === undefined ? '' : writeLayout(layout);
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

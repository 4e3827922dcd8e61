/** A view of the readings kept under a name: its address says its filters, order, groups and columns. */
export interface KeptView {
  readonly name: string;
  /** Such as `#/readings?sort=-margin&group=family`. */
  readonly address: string;
}

const ADDRESS_START = '#/readings';

/** Why a view cannot be kept, as a sentence; undefined where it can. */
export function viewFault({ name, address }: KeptView): string | undefined {
  if (name.trim() === '') return 'A view needs a name to be kept under.';
  const rest = address.slice(ADDRESS_START.length);
  if (!address.startsWith(ADDRESS_START) || !(rest === '' || rest.startsWith('?')))
    return 'Only views of the readings can be kept.';
  return undefined;
}

/** The views with one added, or in the place of the one of its name, in natural order of their names. */
export function withView(views: readonly KeptView[], view: KeptView): readonly KeptView[] {
  return [...views.filter(({ name }) => name !== view.name), view].sort((a, b) => NATURAL.compare(a.name, b.name));
}

const NATURAL = new Intl.Collator('en', { numeric: true });

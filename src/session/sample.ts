const samples = import.meta.glob<string>('../../sample-logs/*.{csv,tsv}', { query: '?raw', import: 'default' });

/** The tables that say what readings mean come before the readings. */
const TABLES = ['repairs', 'bands', 'meters'];

function rank(name: string): number {
  const place = TABLES.findIndex((table) => name.includes(table));
  return place === -1 ? TABLES.length : place;
}

/** The files of the invented scenario, in the order in which they are brought in. */
export async function loadSample(): Promise<readonly File[]> {
  const files = await Promise.all(
    Object.entries(samples).map(async ([path, load]) => {
      const name = path.slice(path.lastIndexOf('/') + 1);
      return new File([await load()], name, { type: 'text/csv' });
    }),
  );
  return files.sort((a, b) => rank(a.name) - rank(b.name) || (a.name < b.name ? -1 : 1));
}

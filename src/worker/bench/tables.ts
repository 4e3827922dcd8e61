import type { FilePlan } from '../../domain/file-plan.ts';
import { readFile } from '../../intake/read-file.ts';
import type { BenchData } from './bench-data.ts';
import { broughtBy, type TableContents } from './contents.ts';
import { pieces } from './pieces.ts';

/**
 * The bench with what its tables of repairs, bands and meters brought, read again from the kept originals where it is not at hand, as after a reload.
 * @param bytesOf - the original of an import; undefined where it is not kept
 */
export async function withTables(
  data: BenchData,
  bytesOf: (hash: string) => Promise<Uint8Array | undefined>,
): Promise<BenchData> {
  const tables = new Map(data.tables);
  for (const { file, hash, shape } of data.imports) {
    const plan = data.plans.get(file);
    if (shape === 'readings' || shape === 'unknown' || tables.has(hash) || plan === undefined) continue;
    const bytes = await bytesOf(hash);
    if (bytes !== undefined) tables.set(hash, await tableOf(file, bytes, plan));
  }
  // In the order of the imports: later tables weigh more.
  const ordered = data.imports.flatMap(({ hash }) => {
    const table = tables.get(hash);
    return table ? [[hash, table] as const] : [];
  });
  return { ...data, tables: new Map(ordered) };
}

async function tableOf(name: string, bytes: Uint8Array, plan: FilePlan): Promise<TableContents> {
  return broughtBy(await readFile({ name, size: bytes.length, bytes: pieces(bytes) }, plan));
}

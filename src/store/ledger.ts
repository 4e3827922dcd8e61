import { countOf } from '../domain/count-text.ts';
import { crc32OfNumbers } from './crc-32.ts';
import type { Ledger, LedgerLine } from './kept.ts';
import type { ImportLine } from './schema.ts';

/** An import's line for the copy that is kept apart from the database. */
export function ledgerLine({ hash, rows, details, chunks }: ImportLine): LedgerLine {
  return { hash, rows, crc: crc32OfNumbers([details, ...chunks]) };
}

/**
 * What the copy kept apart knows of and the database does not, as sentences.
 * @param removed - hashes of imports that were taken away on purpose
 */
export function missingSentences(copy: Ledger, present: Ledger, removed: ReadonlySet<string>): readonly string[] {
  const sameDatabase = copy.database === present.database;
  // A bench that was replaced or cleared on purpose is missed by nobody.
  if (sameDatabase && copy.generation !== present.generation) return [];
  const here = new Map(present.imports.map((line) => [line.hash, line]));
  const missing = copy.imports.filter(({ hash, crc }) => here.get(hash)?.crc !== crc && !removed.has(hash));
  const readings = missing.reduce((sum, { rows }) => sum + rows, 0);
  const edits = sameDatabase ? copy.edits - present.edits : copy.edits;
  return [
    ...(missing.length === 0
      ? []
      : [`${counted(readings, 'reading')} of ${counted(missing.length, 'import')} are missing: restore a backup.`]),
    ...(edits <= 0
      ? []
      : [`${counted(edits, 'change')} of bands, families, repairs or meters are missing: restore a backup.`]),
  ];
}

/** Names what is kept: it is the same at two moments where nothing was changed between them. */
export function markOf({ database, generation, imports, edits }: Ledger): string {
  return JSON.stringify([database, generation, edits, imports.map(({ hash, crc }) => [hash, crc])]);
}

/** A number with its noun: `1 reading`, `12,400 readings`. */
export function counted(number: number, noun: string): string {
  return countOf(number, noun, '.');
}

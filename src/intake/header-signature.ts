import type { ColumnUse } from '../domain/file-plan.ts';

/** A text that is the same for files with the same header: case, outer blanks and ways to compose a letter do not count, the order does. */
export function headerSignature(columns: readonly Pick<ColumnUse, 'header'>[]): string {
  return JSON.stringify(columns.map(({ header }) => header.trim().normalize('NFC').toLowerCase()));
}

import { count, finite, listOf, oneOf, shape, text, type Read } from './fields.ts';
import { hashShape } from './import-shapes.ts';
import type { Edit } from './kept.ts';
import { APP_ID, PIECE_PACKINGS, type ImportLine, type PiecePacking } from './schema.ts';
import { editShape } from './state-shapes.ts';
import { StoreError } from './store-error.ts';

/** Version of the format that is written; a reader of an earlier one refuses it. Since 2 a state has settings and views. */
export const BACKUP_FORMAT = 2;
const READ_FORMATS = [1, BACKUP_FORMAT] as const;

/** What a backup says of itself at its start. */
export interface BackupHeader {
  readonly app: string;
  readonly format: number;
  /** When it was made: milliseconds since 1970, UTC. */
  readonly made: number;
  readonly imports: number;
  readonly readings: number;
  readonly edits: number;
}

/** The ledger's line of an import, as far as it is not of this database alone. */
export type BackupImport = Pick<ImportLine, 'hash' | 'file' | 'rows' | 'chunks' | 'details' | 'bytes' | 'pieces'>;

const wholeHeader: Read<BackupHeader> = shape<BackupHeader>({
  app: text,
  format: count(),
  made: finite,
  imports: count(),
  readings: count(0xffffffff),
  edits: count(),
});

/** The header of a backup. @throws StoreError where another program or a newer version made it */
export const headerShape: Read<BackupHeader> = (value, place) => {
  const { app, format } = (value ?? {}) as Partial<Record<'app' | 'format', unknown>>;
  if (typeof app === 'string' && app !== APP_ID)
    throw new StoreError('refused', 'This is the backup of another program: nothing of it was taken.');
  if (typeof format === 'number' && format > BACKUP_FORMAT) {
    throw new StoreError(
      'refused',
      `A newer version of this page made this backup (format ${format}; this page reads up to ${BACKUP_FORMAT}): reload the page, or open the backup where it was made.`,
    );
  }
  const header = wholeHeader(value, place);
  oneOf([APP_ID])(header.app, `${place}.app`);
  oneOf(READ_FORMATS)(header.format, `${place}.format`);
  return header;
};

export const importShape: Read<BackupImport> = shape<BackupImport>({
  hash: hashShape,
  file: text,
  rows: count(0xffffffff),
  chunks: listOf(count(0xffffffff), 100_000),
  details: count(0xffffffff),
  bytes: count(2 ** 31),
  pieces: count(100_000),
});

export const editsShape: Read<readonly Edit[]> = listOf(editShape, 100_000);

/** A piece of a file as a frame holds it: one byte for its packing, then the piece. */
export function encodePiece(packing: PiecePacking, bytes: Uint8Array): Uint8Array<ArrayBuffer> {
  const result = new Uint8Array(1 + bytes.length);
  result[0] = PIECE_PACKINGS.indexOf(packing);
  result.set(bytes, 1);
  return result;
}

/** @returns undefined where the packing is not known */
export function decodePiece(
  content: Uint8Array<ArrayBuffer>,
): { readonly packing: PiecePacking; readonly bytes: Uint8Array<ArrayBuffer> } | undefined {
  const [code = -1] = content;
  const packing = PIECE_PACKINGS[code];
  return packing && { packing, bytes: content.slice(1) };
}

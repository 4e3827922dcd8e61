import type { BenchDatabase } from './bench-database.ts';
import { readPointer } from './generation.ts';
import type { Ledger, ReportProgress } from './kept.ts';
import { markOf } from './ledger.ts';
import { verifyBackup } from './read-backup.ts';
import type { BackupFileNote } from './schema.ts';
import { StoreError } from './store-error.ts';
import { writeBackup } from './write-backup.ts';

/** A file outside the browser that is kept up to date as a backup. */
export interface BackupFile {
  readonly handle: FileSystemFileHandle;
  /**
   * `current`: holds all that is kept; `behind`: something was changed since it was written; `other bench`: holds a bench that the present one
   * took the place of, so that it is not written over unasked.
   */
  readonly holds: 'current' | 'behind' | 'other bench';
  /** When it was last read back whole, in milliseconds since 1970, UTC. */
  readonly at?: number;
}

/** Permission of file handles, which the compiler's libraries do not know; files of the page's own are always allowed. */
interface Permitted {
  queryPermission?(mode: { readonly mode: 'readwrite' }): Promise<PermissionState>;
}

/** Whether the browser lets this page write into a file without asking. */
export async function isAllowed(handle: FileSystemFileHandle): Promise<boolean> {
  const permission = await (handle as Permitted).queryPermission?.({ mode: 'readwrite' });
  return permission === undefined || permission === 'granted';
}

/** The file that was chosen, and what it holds. @param ledger - what is kept by now */
export async function findBackupFile(database: BenchDatabase, ledger: Ledger): Promise<BackupFile | undefined> {
  const note = await readNote(database);
  if (note === undefined) return undefined;
  const { handle, at, mark, generation } = note;
  const isSame = generation === undefined || generation === ledger.generation;
  const isCurrent = mark === markOf(ledger) && (await isAsWritten(note));
  const holds = !isSame ? 'other bench' : isCurrent ? 'current' : 'behind';
  return { handle, holds, ...(at !== undefined && { at }) };
}

/** Notes which file is kept up to date from now on; undefined for none. */
export async function noteBackupFile(database: BenchDatabase, handle: FileSystemFileHandle | undefined): Promise<void> {
  await database.write('strict', async (transaction) => {
    const about = transaction.objectStore('about');
    await (handle === undefined ? about.delete('file') : about.put({ key: 'file', handle }));
  });
}

/**
 * Writes all that is kept into the chosen file, and reads it back. What is to be written is checked before the file is touched, and the browser
 * puts it in place in one step, so that a whole backup stands there at any time.
 * @param ledger - what is kept by now
 * @throws StoreError with a sentence that names the file
 */
export async function writeBackupFile(
  database: BenchDatabase,
  ledger: Ledger,
  now: number,
  report: ReportProgress,
): Promise<void> {
  const note = await readNote(database);
  if (note === undefined) return;
  const { handle } = note;
  const { file, seal, header } = await writeBackup(database, now, report);
  await verifyBackup(file, seal);
  try {
    const writable = await handle.createWritable();
    await writable.write(file);
    await writable.close();
  } catch (cause) {
    throw new StoreError('failed', sentenceOf(cause, handle.name), cause);
  }
  const written = await handle.getFile();
  await verifyBackup(written, seal);
  const { size, lastModified: modified } = written;
  const { imports } = header;
  await database.write('strict', async (transaction) => {
    const { current: generation } = await readPointer(transaction);
    if (generation !== ledger.generation) return;
    const about = transaction.objectStore('about');
    const mark = markOf(ledger);
    await about.put({ key: 'file', handle, at: now, mark, generation, size, modified });
    await about.put({ key: 'backup', at: now, seal, imports, mark });
  });
}

async function readNote(database: BenchDatabase): Promise<BackupFileNote | undefined> {
  const note = await database.read((transaction) => transaction.objectStore('about').get('file'));
  return note?.key === 'file' ? note : undefined;
}

/** Whether nobody changed or moved the file since it was written, as far as the browser lets the page look. */
async function isAsWritten({ handle, size, modified }: BackupFileNote): Promise<boolean> {
  if (!(await isAllowed(handle))) return true;
  try {
    const found = await handle.getFile();
    return found.size === size && found.lastModified === modified;
  } catch {
    return false;
  }
}

function sentenceOf(cause: unknown, file: string): string {
  const { name, message } = cause instanceof Error ? cause : new Error(String(cause));
  if (name === 'NotFoundError') return `${file} is not there any more: it was moved or deleted. Choose a file again.`;
  if (name === 'NotAllowedError') return `The browser does not let this page write into ${file}: allow it again.`;
  if (name === 'QuotaExceededError') return `There is no room for ${file}: it holds what it held before. Make room.`;
  return `${file} could not be written (${message}): it holds what it held before.`;
}

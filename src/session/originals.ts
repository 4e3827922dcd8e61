import type { FilePlan } from '../domain/file-plan.ts';
import type { ImportOutcome } from '../worker/contract/intake.ts';

/** A file that was brought in during this visit. */
export interface Original {
  readonly file: File;
  /** How it was read, where the technician settled that. */
  readonly plan?: FilePlan;
}

/**
 * Tells which of the files of one call became which import, by the import's hash. An outcome lists imports and refusals each in the order of
 * the files; a file whose name could be either is left out rather than guessed.
 */
export function originalsOf(
  files: readonly File[],
  plans: readonly (FilePlan | undefined)[],
  { records, refused }: ImportOutcome,
): ReadonlyMap<string, Original> {
  const found = new Map<string, Original>();
  let record = 0;
  let refusal = 0;
  for (const [index, file] of files.entries()) {
    const next = records[record];
    const isRead = next !== undefined && isNameOf(file, next.file);
    const isRefused = refused[refusal]?.file === file.name;
    if (isRead === isRefused) break;
    if (isRefused) {
      refusal += 1;
      continue;
    }
    record += 1;
    if (next === undefined) break;
    const plan = plans[index];
    found.set(next.hash, plan === undefined ? { file } : { file, plan });
  }
  return found;
}

/** An import is named like its file, or with a number behind where another one had that name. */
function isNameOf(file: File, name: string): boolean {
  return name === file.name || name.startsWith(`${file.name} (`);
}

/** SHA-256 of a file's bytes, hexadecimal. @throws where the file cannot be read any more */
export async function hashOfFile(file: File): Promise<string> {
  const digest = new Uint8Array(await crypto.subtle.digest('SHA-256', await file.arrayBuffer()));
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

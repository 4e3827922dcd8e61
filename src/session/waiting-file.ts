import type { FilePlan, Preview, Question } from '../domain/file-plan.ts';
import type { PlanChoices } from '../worker/contract/intake.ts';

/** A file that is not read until its questions are answered, or that is to be read in another way. */
export interface WaitingFile {
  readonly file: File;
  /** The name under which it is, or will be, on the bench. */
  readonly name: string;
  readonly plan: FilePlan;
  /** Encoding and separator that the technician chose in place of guesses. */
  readonly choices: PlanChoices;
  /** Questions of the plan that are answered. */
  readonly answered: readonly Question['about'][];
  /** The file's first rows as a plan reads them: as `plan` itself, or as the one before it while this one is tried; undefined until then. */
  readonly preview?: Preview;
  /** The file's first lines as they stand, among which the header is chosen. */
  readonly lines: readonly FileLine[];
  /** Why it could not be tried as asked, as a sentence. */
  readonly problem?: string;
  /** The import, by its hash, that gives way when this file is read again. */
  readonly replaces?: string;
}

/** A line of a file, cut into its cells. */
export interface FileLine {
  /** Physical line, the first being 1. */
  readonly line: number;
  readonly cells: readonly string[];
}

/** The list with one file's entry changed; `undefined` takes something away from it. */
export function withWaiting(
  list: readonly WaitingFile[],
  file: File,
  changes: { readonly [Key in keyof WaitingFile]?: WaitingFile[Key] | undefined },
): readonly WaitingFile[] {
  return list.map((entry) => {
    if (entry.file !== file) return entry;
    const entries = Object.entries({ ...entry, ...changes }).filter(([, value]) => value !== undefined);
    return Object.fromEntries(entries) as unknown as WaitingFile;
  });
}

/** The plan that shows a file's lines as they stand: no header, nothing read. */
export function barePlan(plan: FilePlan): FilePlan {
  return {
    ...plan,
    shape: 'readings',
    headerLine: 0,
    unitsLine: false,
    columns: plan.columns.map(() => ({ header: '', field: 'ignored', reason: '', doubtful: false })),
  };
}

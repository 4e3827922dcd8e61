import { errorText } from '../domain/error-text.ts';
import type { FilePlan, Given, Question } from '../domain/file-plan.ts';
import { CallCancelled, WorkerLost, type BenchClient, type CallOptions } from '../worker/client.ts';
import type { ImportProgress } from '../worker/contract/progress.ts';
import type { ImportOutcome, PlanChoices } from '../worker/contract/intake.ts';
import { hashOfFile, originalsOf, type Original } from './originals.ts';
import { barePlan, withWaiting, type WaitingFile } from './waiting-file.ts';

/** The list of files that wait for an answer, as the session keeps it. */
export interface WaitingList {
  readonly waiting: () => readonly WaitingFile[];
  readonly wait: (list: readonly WaitingFile[]) => void;
}

/** A larger file is not looked through in the page to find out whether its very bytes are here. */
const MOST_HASHED = 256 * 1024 * 1024;

/** The way of files to the bench: those with open questions wait for answers, the others go in at once. */
export class Intake {
  /** Files of this visit by the hash of their import. */
  #originals: ReadonlyMap<string, Original> = new Map();
  /** What was stated for a whole file with a header, and is likely to hold for the next one. */
  readonly #stated = new Map<string, Given>();
  readonly #client: BenchClient;
  readonly #list: WaitingList;

  constructor(client: BenchClient, list: WaitingList) {
    this.#client = client;
    this.#list = list;
  }

  /** Takes the file of an import that was kept from an earlier visit. */
  takeOriginal(hash: string, file: File): void {
    this.#originals = new Map([...this.#originals, [hash, { file }]]);
  }

  /** Lets go of the files of a bench that is no more. */
  forget(): void {
    this.#originals = new Map();
  }

  hasOriginal(hash: string): boolean {
    return this.#originals.has(hash);
  }

  /** Brings files in, each with its plan or as the worker guesses. */
  async read(
    files: readonly File[],
    plans: readonly (FilePlan | undefined)[],
    options: CallOptions<ImportProgress>,
  ): Promise<ImportOutcome> {
    const args = plans.length === 0 ? ([files] as const) : ([files, plans] as const);
    const outcome = await this.#client.call('bringIn', [...args], options);
    // The same bytes under another name are the same import: its first file is kept.
    this.#originals = new Map([...originalsOf(files, plans, outcome), ...this.#originals]);
    return outcome;
  }

  /** Brings in those of some files that leave no question open; the others wait. */
  async admit(files: readonly File[], options: CallOptions<ImportProgress>): Promise<ImportOutcome> {
    const ready: File[] = [];
    const waiting: WaitingFile[] = [];
    const refused: { file: string; reason: string }[] = [];
    for (const [index, file] of files.entries()) {
      const place = { file: file.name, fileNumber: index + 1, files: files.length };
      options.onProgress?.({ ...place, bytes: 0, totalBytes: file.size, rows: 0 });
      const plan = await this.#planOf(file, options);
      if (plan === undefined) ready.push(file);
      else if ('refused' in plan) refused.push({ file: file.name, reason: plan.refused });
      else if (plan.questions.length === 0 || (await this.#isHere(file))) ready.push(file);
      else {
        const likely = { ...plan, given: this.#stated.get(headerOf(plan)) ?? plan.given };
        waiting.push({ file, name: file.name, plan: likely, choices: {}, answered: [], lines: [] });
      }
    }
    const outcome = ready.length > 0 ? await this.read(ready, [], options) : NOTHING_READ;
    this.#list.wait([...this.#list.waiting(), ...waiting]);
    await Promise.all(waiting.map(({ file }) => this.#show(file)));
    return { ...outcome, refused: [...refused, ...outcome.refused] };
  }

  /** Brings in those of the waiting files that what was settled since leaves without a question. */
  async admitAnswered(options: CallOptions<ImportProgress>): Promise<ImportOutcome> {
    const ready: File[] = [];
    for (const { file, replaces, answered } of this.#list.waiting()) {
      if (replaces !== undefined || answered.length > 0) continue;
      const plan = await this.#planOf(file, options);
      if (plan === undefined || 'refused' in plan) continue;
      if (plan.questions.length === 0) ready.push(file);
      else this.#update(file, { plan: { ...plan, given: this.#stated.get(headerOf(plan)) ?? plan.given } });
    }
    if (ready.length === 0) return NOTHING_READ;
    const outcome = await this.read(ready, [], options);
    this.#list.wait(this.#list.waiting().filter(({ file }) => !ready.includes(file)));
    return outcome;
  }

  /** Reads a file by a settled plan. Where it takes an import's place and cannot be read, that import is put back as it was. */
  async settle(
    { file, replaces }: WaitingFile,
    plan: FilePlan,
    options: CallOptions<ImportProgress>,
  ): Promise<ImportOutcome> {
    this.#stated.set(headerOf(plan), likelyAgain(plan.given));
    if (replaces === undefined) return this.read([file], [plan], options);
    const before = this.#originals.get(replaces)?.plan;
    const putBack = (): Promise<ImportOutcome> => this.read([file], before === undefined ? [] : [before], {});
    await this.#client.call('takeBack', [replaces]);
    this.#originals = new Map([...this.#originals].filter(([hash]) => hash !== replaces));
    let outcome: ImportOutcome;
    try {
      outcome = await this.read([file], [plan], options);
    } catch (error) {
      if (!(error instanceof WorkerLost)) await putBack();
      throw error;
    }
    if (outcome.records.length === 0) await putBack();
    return outcome;
  }

  async changePlan(file: File, change: (plan: FilePlan) => FilePlan, answers?: Question['about']): Promise<void> {
    const entry = this.#entry(file);
    if (entry === undefined) return;
    const { answered } = entry;
    const plan = change(entry.plan);
    const nowAnswered = answers === undefined ? answered : [...answered, answers];
    this.#update(file, { plan, answered: nowAnswered, problem: undefined });
    await this.#preview(file);
  }

  async replan(file: File, choices: PlanChoices): Promise<void> {
    const before = this.#entry(file);
    if (before === undefined) return;
    const chosen = { ...before.choices, ...choices };
    this.#update(file, { choices: chosen, problem: undefined });
    const isLatest = (): boolean => this.#entry(file)?.choices === chosen;
    try {
      const plan = await this.#client.call('planFile', [file, chosen]);
      if (!isLatest()) return;
      if ('refused' in plan) this.#update(file, { choices: before.choices, problem: plan.refused });
      else this.#update(file, { plan: { ...plan, given: before.plan.given }, answered: [] });
    } catch (error) {
      if (isLatest()) this.#update(file, { choices: before.choices, problem: errorText(error) });
      return;
    }
    await this.#show(file);
  }

  async reread(hash: string, name: string, given?: File): Promise<void> {
    if (given !== undefined && (await hashOfFile(given)) !== hash) {
      throw new Error(
        `${given.name} is not the file that was brought in as ${name}: its bytes differ. Choose that file, or bring this one in as one of its own.`,
      );
    }
    const original = given === undefined ? this.#originals.get(hash) : { file: given };
    if (original === undefined) throw new Error(`The file of ${name} is not at hand: choose it again.`);
    const { file, plan: settled } = original;
    if (this.#entry(file) !== undefined) return;
    try {
      const plan = settled ?? (await this.#client.call('planFile', [file]));
      if ('refused' in plan) throw new Error(plan.refused);
      const answered = settled === undefined ? [] : plan.questions.map(({ about }) => about);
      const entry: WaitingFile = { file, name, plan, choices: {}, answered, lines: [], replaces: hash };
      this.#originals = new Map([...this.#originals, [hash, original]]);
      this.#list.wait([entry, ...this.#list.waiting()]);
    } catch (error) {
      if (isGone(error)) throw error;
      this.#originals = new Map([...this.#originals].filter(([one]) => one !== hash));
      throw new Error(`The file of ${name} cannot be read any more: choose it again. ${errorText(error)}`, {
        cause: error,
      });
    }
    await this.#show(file);
  }

  /** A file's plan; undefined where it cannot be had, which the import itself will explain. */
  async #planOf(file: File, { signal }: CallOptions<ImportProgress>) {
    try {
      return await this.#client.call('planFile', [file], signal === undefined ? {} : { signal });
    } catch (error) {
      if (isGone(error) || signal?.aborted === true) throw error;
      return undefined;
    }
  }

  /** Whether the very bytes of a file are on the bench or are gone, so that nothing needs to be asked about it. */
  async #isHere(file: File): Promise<boolean> {
    const { imports } = await this.#client.call('shift', []);
    if (imports.length === 0 || file.size > MOST_HASHED) return false;
    const hash = await hashOfFile(file).catch(() => undefined);
    // What cannot be read any more is not asked about either: the import itself explains it.
    return hash === undefined || imports.some((record) => record.hash === hash);
  }

  /** Shows a file's first lines as they stand, and as its plan reads them. */
  async #show(file: File): Promise<void> {
    const entry = this.#entry(file);
    if (entry === undefined) return;
    const { plan, choices } = entry;
    const lines = this.#client.call('previewFile', [file, barePlan(plan)]).then(
      ({ rows }) => {
        const cut = rows.map(({ line, cells }) => ({ line, cells: cells.map(({ text }) => text) }));
        if (this.#entry(file)?.choices === choices) this.#update(file, { lines: cut });
      },
      () => undefined,
    );
    await Promise.all([lines, this.#preview(file)]);
  }

  /** Tries a waiting file's plan on its first rows; an answer that comes after a further change is let go. */
  async #preview(file: File): Promise<void> {
    const plan = this.#entry(file)?.plan;
    if (plan === undefined) return;
    try {
      const preview = await this.#client.call('previewFile', [file, plan]);
      if (this.#entry(file)?.plan === plan) this.#update(file, { preview: { ...preview, plan } });
    } catch (error) {
      if (this.#entry(file)?.plan === plan) this.#update(file, { problem: errorText(error) });
    }
  }

  #entry(file: File): WaitingFile | undefined {
    return this.#list.waiting().find((entry) => entry.file === file);
  }

  #update(file: File, changes: Parameters<typeof withWaiting>[2]): void {
    this.#list.wait(withWaiting(this.#list.waiting(), file, changes));
  }
}

/** What came of no files at all. */
export const NOTHING_READ: ImportOutcome = { records: [], setAside: [], refused: [] };

function headerOf({ columns }: FilePlan): string {
  return JSON.stringify(columns.map(({ header }) => header));
}

/** What is stated for one file and likely to hold for the next: not the board, the point or the day. */
function likelyAgain({ stage, mode, specimen, meter }: Given): Given {
  return {
    ...(stage !== undefined && { stage }),
    ...(mode !== undefined && { mode }),
    ...(specimen !== undefined && { specimen }),
    ...(meter !== undefined && { meter }),
  };
}

function isGone(error: unknown): boolean {
  return error instanceof WorkerLost || error instanceof CallCancelled;
}

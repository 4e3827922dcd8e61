import type { PageState } from './page-state.ts';

/** How often it is looked whether an import elsewhere still runs, in milliseconds: a tab that ends leaves its note. */
const LOOK_AGAIN = 3_000;

/** Shows which files other tabs are bringing in. */
export class Elsewhere {
  readonly #page: PageState;
  readonly #find: () => Promise<readonly string[]>;
  #timer: ReturnType<typeof setTimeout> | undefined;

  /** @param find - gives the files that other tabs are bringing in */
  constructor(page: PageState, find: () => Promise<readonly string[]>) {
    this.#page = page;
    this.#find = find;
  }

  /** Looks now, and again and again as long as there are some. */
  async look(): Promise<void> {
    clearTimeout(this.#timer);
    const files = await this.#find();
    const before = this.#page.current.elsewhere ?? [];
    if (files.join('\n') !== before.join('\n')) this.#page.set({ elsewhere: files.length > 0 ? files : undefined });
    if (files.length > 0) this.#timer = setTimeout(() => void this.look(), LOOK_AGAIN);
  }
}

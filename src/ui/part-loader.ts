/** How far a part of the page is. */
export type PartState = 'loading' | 'ready' | 'failed';

/** Loads parts of the page when they are first shown, and the others once the page has nothing else to do. */
export class PartLoader<Part extends string> {
  #isAhead = false;
  readonly #states = new Map<Part, PartState>();
  readonly #loaders: Readonly<Record<Part, () => Promise<unknown>>>;
  readonly #changed: () => void;
  readonly #whenIdle: (work: () => void) => void;

  /**
   * @param loaders - load each part; asked again after a failure
   * @param changed - called when a part's state has changed
   * @param whenIdle - puts work off until the page is idle; a test gives its own
   */
  constructor(loaders: Readonly<Record<Part, () => Promise<unknown>>>, changed: () => void, whenIdle = whenPageIsIdle) {
    this.#loaders = loaders;
    this.#changed = changed;
    this.#whenIdle = whenIdle;
  }

  /** The state of a part that is to be shown now; it is loaded where it never was. */
  show(part: Part): PartState {
    const state = this.#states.get(part);
    if (state !== undefined) return state;
    void this.#load(part);
    return 'loading';
  }

  /** Loads a part again that could not be loaded. */
  tryAgain(part: Part): void {
    void this.#load(part);
    this.#changed();
  }

  async #load(part: Part): Promise<void> {
    this.#states.set(part, 'loading');
    try {
      await this.#loaders[part]();
      this.#states.set(part, 'ready');
    } catch {
      this.#states.set(part, 'failed');
    }
    this.#changed();
    if (this.#isAhead) return;
    this.#isAhead = true;
    await this.#loadAhead();
  }

  /** Loads the other parts one after the other. One that fails is met again when it is to be shown. */
  async #loadAhead(): Promise<void> {
    for (const part of Object.keys(this.#loaders) as Part[]) {
      await new Promise<void>(this.#whenIdle);
      if (this.#states.has(part)) continue;
      await this.#loaders[part]().then(
        () => this.#states.set(part, 'ready'),
        () => undefined,
      );
    }
  }
}

function whenPageIsIdle(work: () => void): void {
  // Not every browser tells when it is idle.
  if ('requestIdleCallback' in globalThis) requestIdleCallback(work);
  else setTimeout(work, 500);
}

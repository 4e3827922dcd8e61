import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** What a form starts from: the thing that is edited, and its texts as it is stored. */
export interface Stored<Draft> {
  /** Names the thing; another one is typed anew. */
  readonly subject: string;
  readonly draft: Draft;
}

/**
 * What is typed over something stored. Until somebody types it follows what is stored; after that it stays as it is
 * typed, and says where what is stored has become another meanwhile.
 */
export class DraftController<Draft> implements ReactiveController {
  #subject: string | undefined;
  /** What was stored when typing began. */
  #base: Draft | undefined;
  #typed: Draft | undefined;
  #stored: Draft | undefined;
  /** What was stored when the draft was saved: what comes after it is the draft as it was taken. */
  #replaced: Draft | undefined;
  readonly #host: ReactiveControllerHost;
  readonly #storedNow: () => Stored<Draft> | undefined;

  /** @param storedNow - asked before each update of the host; undefined while that is not known */
  constructor(host: ReactiveControllerHost, storedNow: () => Stored<Draft> | undefined) {
    this.#host = host;
    this.#storedNow = storedNow;
    host.addController(this);
  }

  hostUpdate(): void {
    this.follow();
  }

  /** Takes what is stored by now; for a host that knows it only while it updates. */
  follow(): void {
    const stored = this.#storedNow();
    if (stored === undefined) return;
    this.#stored = stored.draft;
    const isTaken = this.#replaced !== undefined && !isSame(this.#replaced, stored.draft);
    if (stored.subject !== this.#subject || isTaken || isSame(this.#typed, stored.draft)) {
      this.#typed = undefined;
      this.#replaced = undefined;
    }
    this.#subject = stored.subject;
    if (this.#typed === undefined) this.#base = stored.draft;
  }

  /** What the form shows; undefined until something stored is known. */
  get draft(): Draft | undefined {
    return this.#typed ?? this.#base;
  }

  /** Whether something was typed that is not stored. */
  get isBegun(): boolean {
    return this.#typed !== undefined && !isSame(this.#typed, this.#base);
  }

  /** What is stored by now, where that is neither what typing began from nor what is typed. */
  get elsewhere(): Draft | undefined {
    return this.isBegun && this.#replaced === undefined && !isSame(this.#stored, this.#base) ? this.#stored : undefined;
  }

  /** Takes what is typed by now. */
  type(draft: Draft): void {
    this.#typed = draft;
    this.#replaced = undefined;
    this.#host.requestUpdate();
  }

  /** Takes it that what is typed was saved: the form shows it until it comes back as it is stored. */
  saved(): void {
    this.#replaced = this.#stored;
  }

  /** Goes on with what is typed although something else is stored by now. */
  readonly keepTyped = (): void => {
    this.#base = this.#stored;
    this.#host.requestUpdate();
  };

  /** Shows what is stored by now in place of what was typed. */
  readonly takeStored = (): void => {
    this.#base = this.#stored;
    this.#typed = undefined;
    this.#host.requestUpdate();
  };
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

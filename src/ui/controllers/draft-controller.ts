import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** What a form starts from: the thing that is edited, and its texts as it is stored. */
export interface Stored<Draft> {
  /** Names the thing; another one is typed anew. */
  readonly subject: string;
  readonly draft: Draft;
  /** Tells one state of the stored thing from another; the draft does where it is left out. */
  readonly version?: unknown;
}

/**
 * What is typed over something stored. Until somebody types it follows what is stored; after that it stays as it is
 * typed, and says where what is stored has become another meanwhile.
 */
export class DraftController<Draft> implements ReactiveController {
  /** What is stored by now. */
  #stored: Stored<Draft> | undefined;
  /** What was stored when typing began. */
  #base: Stored<Draft> | undefined;
  #typed: Draft | undefined;
  /** What was stored when the draft was saved: what comes after it is the draft as it was taken. */
  #replaced: Stored<Draft> | undefined;
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
    const isTaken = this.#replaced !== undefined && !isSame(versionOf(this.#replaced), versionOf(stored));
    if (stored.subject !== this.#stored?.subject || isTaken || isSame(this.#typed, stored.draft)) {
      this.#typed = undefined;
      this.#replaced = undefined;
    }
    this.#stored = stored;
    if (this.#typed === undefined) this.#base = stored;
  }

  /** What the form shows; undefined until something stored is known. */
  get draft(): Draft | undefined {
    return this.#typed ?? this.#base?.draft;
  }

  /** Whether what is stored has become another since typing began, and nobody has chosen between the two. */
  get isOutdated(): boolean {
    return (
      this.#typed !== undefined &&
      this.#replaced === undefined &&
      !isSame(versionOf(this.#stored), versionOf(this.#base))
    );
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

function versionOf<Draft>(stored: Stored<Draft> | undefined): unknown {
  return stored && (stored.version ?? stored.draft);
}

function isSame(one: unknown, other: unknown): boolean {
  return JSON.stringify(one) === JSON.stringify(other);
}

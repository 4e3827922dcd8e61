import { html, nothing, type ReactiveController, type ReactiveControllerHost } from 'lit';
import { errorText } from '../../domain/error-text.ts';

/** Makes the changes that its host asks for, and keeps what is to be said of the last one: that it runs, failed, or is done. */
export class ChangeController implements ReactiveController {
  /** Why the last change was not made, as a sentence. */
  fault: string | undefined;
  /** What the last change did, as a sentence. */
  done: string | undefined;
  #running = 0;
  readonly #host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.#host = host;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.clear();
  }

  /** Whether a change is being made. */
  get isBusy(): boolean {
    return this.#running > 0;
  }

  /**
   * Makes a change.
   * @param done - says what it did
   * @returns what the change gave; undefined where it failed, which is said
   */
  async make<Result>(
    change: () => Promise<Result>,
    done?: string | ((result: Result) => string | undefined),
  ): Promise<{ readonly result: Result } | undefined> {
    this.clear();
    this.#running += 1;
    try {
      const result = await change();
      this.done = typeof done === 'function' ? done(result) : done;
      return { result };
    } catch (error) {
      this.fault = errorText(error);
      return undefined;
    } finally {
      this.#running -= 1;
      this.#host.requestUpdate();
    }
  }

  /** Says what is wrong with what was typed, so that nothing is changed. */
  refuse(fault: string): void {
    this.done = undefined;
    this.fault = fault;
    this.#host.requestUpdate();
  }

  /** Takes off what was said of the last change. */
  clear(): void {
    this.fault = undefined;
    this.done = undefined;
    this.#host.requestUpdate();
  }

  /** The sentence about a change that was not made, told at once to who listens. */
  faultLine() {
    return this.fault === undefined ? nothing : html`<p role="alert"><span class="wrong">▲</span> ${this.fault}</p>`;
  }
}

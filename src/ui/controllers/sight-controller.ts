import type { ReactiveController, ReactiveControllerHost } from 'lit';

/**
 * Draws a new version of a tall page where it is in sight at once, and the parts out of sight after the frame that shows it: what is seen does not wait
 * for what is not.
 */
export class SightController<Version> implements ReactiveController {
  #latest: Version | undefined;
  #shown: Version[] = [];
  readonly #host: ReactiveControllerHost;
  readonly #parts: () => readonly Element[];

  /** @param parts - gives the parts of the page that stand there, in their order; none before the first drawing */
  constructor(host: ReactiveControllerHost, parts: () => readonly Element[]) {
    this.#host = host;
    this.#parts = parts;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#latest = undefined;
  }

  /**
   * The version that each of so many parts is to show. What has not been drawn before is drawn whole.
   * @param latest - told from the one before by what it is, not by what it holds
   */
  versions(latest: Version, count: number): readonly Version[] {
    if (latest === this.#latest) return this.#shown;
    const parts = this.#parts();
    this.#latest = latest;
    this.#shown = Array.from({ length: count }, (_, at) => {
      const [part, before] = [parts[at], this.#shown[at]];
      return part === undefined || before === undefined || isInSight(part) ? latest : before;
    });
    if (this.#shown.some((version) => version !== latest)) this.#drawRest(latest, count);
    return this.#shown;
  }

  #drawRest(latest: Version, count: number): void {
    requestAnimationFrame(() => {
      // A task begun in a frame runs once the frame has been painted.
      setTimeout(() => {
        if (latest !== this.#latest) return;
        this.#shown = new Array<Version>(count).fill(latest);
        this.#host.requestUpdate();
      });
    });
  }
}

function isInSight(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return bottom > 0 && top < innerHeight;
}

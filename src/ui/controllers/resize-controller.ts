import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** Reports the sizes of some elements of its host, once at first and then at each change. */
export class ResizeController implements ReactiveController {
  private observer: ResizeObserver | undefined;
  private readonly targets: () => readonly Element[];
  private readonly resized: () => void;

  /**
   * @param targets - gives the elements to watch; asked once the host has been drawn
   * @param resized - called after a change of any one's size
   */
  constructor(host: ReactiveControllerHost, targets: () => readonly Element[], resized: () => void) {
    this.targets = targets;
    this.resized = resized;
    host.addController(this);
  }

  hostUpdated(): void {
    if (this.observer !== undefined) return;
    this.observer = new ResizeObserver(() => {
      this.resized();
    });
    for (const target of this.targets()) this.observer.observe(target);
  }

  hostDisconnected(): void {
    this.observer?.disconnect();
    this.observer = undefined;
  }
}

/** Reports how wide the first element of a selector is within its host, in pixels, once at first and then at each change. */
export function followWidth(
  host: ReactiveControllerHost & { readonly renderRoot: ParentNode },
  selector: string,
  found: (width: number) => void,
): void {
  new ResizeController(
    host,
    () => [...host.renderRoot.querySelectorAll(selector)],
    () => {
      found(host.renderRoot.querySelector(selector)?.clientWidth ?? 0);
    },
  );
}

import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** While a key is held down only what it ends on is said, in milliseconds after the last change. */
const SAID_AFTER = 150;

/** Text for a live region of its host, said once it has stood for a moment. */
export class GridVoiceController implements ReactiveController {
  /** What is said now. */
  text = '';
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  say(text: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.text = text;
      this.host.requestUpdate();
    }, SAID_AFTER);
  }

  hostDisconnected(): void {
    clearTimeout(this.timer);
  }
}

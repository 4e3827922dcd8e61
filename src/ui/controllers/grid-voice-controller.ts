import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** While a key is held down only what it ends on is said, in milliseconds after the last change. */
const SAID_AFTER = 150;
/** What a change came to is said together with the row that the cursor is on after it, in milliseconds. */
const NOTED_FOR = 400;

/** Text for a live region of its host, said once it has stood for a moment. */
export class GridVoiceController implements ReactiveController {
  /** What is said now. */
  text = '';
  private noted = '';
  private place = '';
  private timer: ReturnType<typeof setTimeout> | undefined;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /** Says where the cursor is, or what became of a key. */
  readonly say = (text: string): void => {
    this.place = text;
    this.wait(this.noted === '' ? SAID_AFTER : NOTED_FOR);
  };

  /** Says what a change came to, before what is said of the place where that leaves the cursor. */
  readonly note = (text: string): void => {
    this.noted = text;
    this.place = '';
    this.wait(NOTED_FOR);
  };

  hostDisconnected(): void {
    clearTimeout(this.timer);
  }

  private wait(milliseconds: number): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.text = [this.noted, this.place].filter((text) => text !== '').join(' ');
      this.noted = this.place = '';
      this.host.requestUpdate();
    }, milliseconds);
  }
}

import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { errorText } from '../../domain/error-text.ts';
import type { Trial } from '../../session/answers.ts';

/**
 * Tries bands one after another while a limit moves: one try runs at a time, and of those asked for meanwhile only the
 * latest follows, so that the counts keep up with the hand and never fall behind it.
 */
export class TrialController implements ReactiveController {
  /** The latest trial; undefined until there is one. */
  trial: Trial | undefined;
  /** Why the latest could not be had, as a sentence. */
  fault: string | undefined;
  private wanted: { readonly key: string; readonly ask: () => Promise<Trial> } | undefined;
  private asked = '';
  private running = false;
  private readonly host: ReactiveControllerHost;

  constructor(host: ReactiveControllerHost) {
    this.host = host;
    host.addController(this);
  }

  /** Asks for a trial, unless it is the one asked for last. @param key - tells one band on one bench from another */
  want(key: string, ask: () => Promise<Trial>): void {
    if (key === this.asked) return;
    this.asked = key;
    this.wanted = { key, ask };
    if (!this.running) void this.run();
  }

  /** Forgets the trial, as there is no band to try. */
  drop(): void {
    this.asked = '';
    this.wanted = undefined;
    this.trial = undefined;
  }

  hostDisconnected(): void {
    this.drop();
  }

  private async run(): Promise<void> {
    this.running = true;
    for (let next = this.wanted; next !== undefined; next = this.wanted) {
      this.wanted = undefined;
      try {
        const trial = await next.ask();
        if (this.asked === '') continue;
        this.trial = trial;
        this.fault = undefined;
      } catch (error) {
        this.fault = errorText(error);
      }
      this.host.requestUpdate();
    }
    this.running = false;
  }
}

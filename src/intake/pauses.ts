/** Work goes on for so long, in milliseconds, before messages get their turn. */
const TURN = 40;

/** Lets other tasks run now and then during long work, so that a message to stop it gets through. */
export class Pauses {
  readonly #signal: AbortSignal | undefined;
  #channel: MessageChannel | undefined;
  #since = performance.now();

  constructor(signal: AbortSignal | undefined) {
    this.#signal = signal;
  }

  /** Waits for one turn of the event loop, where the last is some time ago. @throws the signal's reason where it stopped the work */
  async pause(): Promise<void> {
    if (performance.now() - this.#since < TURN) return;
    const channel = (this.#channel ??= new MessageChannel());
    await new Promise<void>((resolve) => {
      channel.port1.onmessage = () => {
        resolve();
      };
      channel.port2.postMessage(undefined);
    });
    this.#since = performance.now();
    this.#signal?.throwIfAborted();
  }

  close(): void {
    this.#channel?.port1.close();
  }
}

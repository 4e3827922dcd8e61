import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { Session } from '../../session/session.ts';

/** Draws its host again whenever the session has changed. */
class SessionController implements ReactiveController {
  #unsubscribe: (() => void) | undefined;
  #session: Session | undefined;
  readonly #host: ReactiveControllerHost;
  readonly #sessionOf: () => Session | undefined;

  /** @param sessionOf - gives the host's session; asked before each update, as it is set from outside */
  constructor(host: ReactiveControllerHost, sessionOf: () => Session | undefined) {
    this.#host = host;
    this.#sessionOf = sessionOf;
    host.addController(this);
  }

  hostConnected(): void {
    this.#follow(this.#sessionOf());
  }

  hostUpdate(): void {
    this.#follow(this.#sessionOf());
  }

  hostDisconnected(): void {
    this.#follow(undefined);
  }

  #follow(session: Session | undefined): void {
    if (session === this.#session) return;
    this.#unsubscribe?.();
    this.#session = session;
    this.#unsubscribe = session?.subscribe(() => {
      this.#host.requestUpdate();
    });
  }
}

/** Has a host drawn again whenever its session has changed. */
export function followSession(host: ReactiveControllerHost, sessionOf: () => Session | undefined): void {
  new SessionController(host, sessionOf);
}

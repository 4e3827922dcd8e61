import type { Session } from '../../session/session.ts';

const authors = new WeakMap<Session, string>();

/** Who sets bands, as last typed while this page is open; empty where nobody said. */
export function authorOf(session: Session): string {
  return authors.get(session) ?? '';
}

export function rememberAuthor(session: Session, author: string): void {
  authors.set(session, author);
}

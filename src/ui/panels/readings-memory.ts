import type { Session } from '../../session/session.ts';
import { FIRST_LAYOUT, type ColumnLayout } from '../grid/column-layout.ts';

/** What the grid of readings remembers while a session lasts. */
export interface ReadingsMemory {
  /** The columns as they were last, for an address that says nothing of them. */
  layout: ColumnLayout;
}

const memories = new WeakMap<Session, ReadingsMemory>();

/** What is remembered in a session; who changes it changes it for all. */
export function memoryOf(session: Session): ReadingsMemory {
  const memory = memories.get(session) ?? { layout: FIRST_LAYOUT };
  memories.set(session, memory);
  return memory;
}

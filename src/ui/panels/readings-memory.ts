import type { ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { FIRST_LAYOUT, type ColumnLayout } from '../grid/column-layout.ts';

/** Columns, order, filters and groups kept under a name. */
export interface ReadingsView {
  readonly name: string;
  readonly query: ReadingsQuery;
  readonly layout: ColumnLayout;
}

/** What the grid of readings remembers while a session lasts. */
export interface ReadingsMemory {
  /** The columns as they were last, for an address that says nothing of them. */
  layout: ColumnLayout;
  /** In order of their names. */
  views: readonly ReadingsView[];
}

const memories = new WeakMap<Session, ReadingsMemory>();

/** What is remembered in a session; who changes it changes it for all. */
export function memoryOf(session: Session): ReadingsMemory {
  const memory = memories.get(session) ?? { layout: FIRST_LAYOUT, views: [] };
  memories.set(session, memory);
  return memory;
}

/** The views with one added, or in the place of the one of its name. */
export function withView(views: readonly ReadingsView[], view: ReadingsView): readonly ReadingsView[] {
  const others = views.filter(({ name }) => name !== view.name);
  return [...others, view].sort((a, b) => COLLATOR.compare(a.name, b.name));
}

const COLLATOR = new Intl.Collator('en', { numeric: true });

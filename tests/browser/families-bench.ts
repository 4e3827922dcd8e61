import { FigureFrame } from '../../src/ui/charts/figure-frame.ts';
import { Session } from '../../src/session/session.ts';
import { createBenchClient, type BenchClient } from '../../src/worker/client.ts';
import { expect } from 'vitest';
import { eventually } from '../support/eventually.ts';

/** A session over the real bench in a real worker, with the given files read in. */
export async function benchWith(files: readonly File[]): Promise<{ session: Session; client: BenchClient }> {
  const client = createBenchClient();
  const session = new Session(client, () => Promise.resolve(files));
  await session.openSample();
  return { session, client };
}

/** A table in the project's own long form. */
export function tableOf(name: string, header: string, rows: readonly string[]): File {
  return new File([[header, ...rows, ''].join('\n')], name);
}

/** All figures within an element, those of elements within it included. */
export function figuresIn(element: Element): readonly FigureFrame[] {
  return within(element, 'bt-figure-frame').filter((one) => one instanceof FigureFrame);
}

/** All elements that fit a selector within an element’s shadow and the shadows in it. */
export function within(element: Element, selector: string): readonly Element[] {
  const root = element.shadowRoot ?? element;
  return [...root.querySelectorAll('*')].flatMap((one) => [
    ...(one.matches(selector) ? [one] : []),
    ...(one.shadowRoot === null ? [] : within(one, selector)),
  ]);
}

/** All text that is shown within an element, names of marks included. */
export function allText(element: Element): string {
  return [element, ...within(element, '*')]
    .filter((one) => one.shadowRoot !== null)
    .flatMap((one) => [
      one.shadowRoot?.textContent ?? '',
      ...[...(one.shadowRoot?.querySelectorAll('[aria-label], [d], [x], [cx], [width]') ?? [])].flatMap((mark) =>
        ['aria-label', 'd', 'x', 'cx', 'y', 'cy', 'width', 'height'].map((name) => mark.getAttribute(name) ?? ''),
      ),
    ])
    .join('\n');
}

/** What no page may show: numbers that are none, and what a missing value turns into. */
export const NO_NUMBER = /NaN|Infinity|∞|undefined|null/;

/** Waits until the figures of an element are there. */
export async function figuresDrawn(element: Element): Promise<readonly FigureFrame[]> {
  await eventually(() => {
    expect(figuresIn(element).length).toBeGreaterThan(0);
  });
  return figuresIn(element);
}

/** The question, the words, and the texts of a figure by the start of its question. */
export function figure(figures: readonly FigureFrame[], question: string): FigureFrame {
  const found = figures.find((one) => one.question.startsWith(question));
  if (found === undefined) throw new Error(`No figure asks ${question}.`);
  return found;
}

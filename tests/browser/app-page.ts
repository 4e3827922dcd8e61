import axe from 'axe-core';
import type { ReactiveElement } from 'lit';
import '../../src/ui/styles/fonts.ts';
import { adoptTokens } from '../../src/ui/styles/tokens.ts';

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** Puts an element alone on the page, where the element before it was, and waits until it is drawn. */
export async function show<Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  properties: Partial<HTMLElementTagNameMap[Tag]>,
): Promise<HTMLElementTagNameMap[Tag]> {
  adoptTokens(document);
  const element = document.createElement(tag);
  Object.assign(element, properties);
  document.body.replaceChildren(element);
  await drawn(element);
  return element;
}

/** Waits until an element and those within it have drawn what they know, answers of the small bench included. */
export async function drawn(element: Element): Promise<void> {
  for (let round = 0; round < 5; round++) {
    await (element as Partial<ReactiveElement>).updateComplete;
    await new Promise((resolve) => setTimeout(resolve));
  }
}

/** What axe-core finds wrong with what is shown, each with the places where; a part of a page is not held to be a page. */
export async function violations(element: Element, wholePage = false): Promise<readonly string[]> {
  const { violations: found } = await axe.run(element, {
    runOnly: RULES,
    rules: { 'target-size': { enabled: true }, region: { enabled: wholePage } },
  });
  return found.map(({ id, nodes }) => `${id}: ${nodes.map(({ target, failureSummary }) => `${target.join(' ')} ${failureSummary ?? ''}`).join('; ')}`); // prettier-ignore
}

/** All elements of one tag inside an element's shadow root. */
export function all(element: Element, selector: string): readonly HTMLElement[] {
  return [...(element.shadowRoot?.querySelectorAll<HTMLElement>(selector) ?? [])];
}

/** What has the focus, through every shadow root: its accessible label or its text. */
export function focusedName(): string {
  let element = document.activeElement;
  while (element?.shadowRoot?.activeElement) element = element.shadowRoot.activeElement;
  const labels = (element as Partial<HTMLInputElement> | null)?.labels ?? [];
  return oneSpaced(element?.getAttribute('aria-label') ?? labels[0]?.textContent ?? element?.textContent ?? '');
}

/** The text of one element inside another's shadow root, with single spaces. */
export function textOf(element: Element, selector: string): string {
  return oneSpaced(all(element, selector)[0]?.textContent ?? '');
}

/** The rows of a table's body, each as the texts of its cells. */
export function rowsOf(element: Element, table: string): readonly (readonly string[])[] {
  return all(element, `${table} tbody tr`).map((row) =>
    [...row.querySelectorAll('th, td')].map((cell) => oneSpaced(cell.textContent)),
  );
}

function oneSpaced(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}

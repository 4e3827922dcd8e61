import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { ReadingsQuery } from '../../src/session/answers.ts';
import '../../src/ui/panels/readings-save.ts';
import { openSession } from './app-bench.ts';
import { drawn, focusedName, show, violations } from './app-page.ts';

const QUERY: ReadingsQuery = { filters: [{ field: 'family', oneOf: ['HERON-48'] }], sort: [] };

const saved: { readonly name: string; readonly href: string }[] = [];

beforeEach(() => {
  saved.length = 0;
  vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
    saved.push({ name: this.download, href: this.href });
  });
});

afterEach(() => {
  vi.restoreAllMocks();
});

type Answers = NonNullable<Parameters<typeof openSession>[0]>;

async function showPanel(readingsText: NonNullable<Answers['readingsText']>) {
  const { session, client } = await openSession({ readingsText });
  const element = await show('bt-readings-save', { session, query: QUERY });
  const asked = (): readonly unknown[] =>
    client.calls.filter(({ name }) => name === 'readingsText').map(({ args }) => args);
  return { element, asked };
}

const exact = page.getByRole('button', { name: 'Save as CSV, exact' });
const status = page.getByRole('status');

describe('<bt-readings-save>', () => {
  test('renders', async () => {
    await showPanel(() => new Blob());
    await expect.element(page.getByRole('group', { name: /^Save these readings as CSV/ })).toBeVisible();
    await expect.element(exact).toBeVisible();
  });

  test('is accessible', async () => {
    const { element } = await showPanel(() => new Blob());
    expect(await violations(element)).toEqual([]);
  });

  test('saves what is listed, exactly or for a spreadsheet, by keyboard', async () => {
    const { element, asked } = await showPanel(([, isForSpreadsheet]) => new Blob([`for one: ${isForSpreadsheet}`]));
    element.focus();
    await expect.poll(focusedName).toBe('Save as CSV, exact');
    await userEvent.keyboard('{Enter}');
    await expect.element(status).toHaveTextContent('The browser took “readings.csv” to its downloads.');
    await userEvent.keyboard('{Tab}{Enter}');
    await expect
      .element(status)
      .toHaveTextContent('The browser took “readings for a spreadsheet.csv” to its downloads.');
    expect(asked()).toEqual([
      [QUERY, false],
      [QUERY, true],
    ]);
    expect(saved.map(({ name }) => name)).toEqual(['readings.csv', 'readings for a spreadsheet.csv']);
    const texts = await Promise.all(saved.map(async ({ href }) => (await fetch(href)).text()));
    expect(texts).toEqual(['for one: false', 'for one: true']);
  });

  test('tells how far it is, begins nothing beside it, and is stopped with nothing saved', async () => {
    const { element, asked } = await showPanel(
      (_, { signal, onProgress }) =>
        new Promise((_resolve, reject) => {
          onProgress?.({ done: 4096, total: 100_000 });
          signal?.addEventListener('abort', () => {
            reject(new DOMException('stopped', 'AbortError'));
          });
        }),
    );
    await exact.click();
    await expect.element(page.getByRole('progressbar', { name: 'Readings written' })).toBeVisible();
    await expect.element(page.getByText('4,096 of 100,000 readings')).toBeVisible();
    expect(await violations(element)).toEqual([]);
    await userEvent.keyboard('{Enter}');
    expect(asked()).toHaveLength(1);
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect.element(status).toHaveTextContent('Stopped: nothing was saved.');
    expect(focusedName()).toBe('Done');
    expect(saved).toEqual([]);
  });

  test('says a failure in a sentence', async () => {
    await showPanel(() => Promise.reject(new Error('The worker stopped.')));
    await exact.click();
    await expect.element(status).toHaveTextContent('The worker stopped.');
  });

  test('is closed by Escape', async () => {
    const { element } = await showPanel(() => new Blob());
    const closed = vi.fn();
    element.addEventListener('save-closed', closed);
    element.focus();
    await drawn(element);
    await userEvent.keyboard('{Escape}');
    expect(closed).toHaveBeenCalledOnce();
  });
});

import { describe, expect, test, vi } from 'vitest';
import { PAGE_ROWS, RowPages } from '../../../src/ui/grid/row-pages.ts';

/** Pages over rows that are their own numbers; each fetch waits until it is let go. */
function heldPages(rows: number) {
  const waiting: { page: number; go: () => void; fail: (reason: Error) => void }[] = [];
  const arrived = vi.fn();
  const failed = vi.fn();
  const pages = new RowPages<number>(
    (first, count) =>
      new Promise((resolve, reject) => {
        const size = Math.max(0, Math.min(count, rows - first));
        const result = Array.from({ length: size }, (_, index) => first + index);
        waiting.push({ page: first / PAGE_ROWS, go: () => { resolve(result); }, fail: reject }); // prettier-ignore
      }),
    arrived,
    failed,
  );
  const release = async (): Promise<number[]> => {
    const now = waiting.splice(0);
    for (const { go } of now) go();
    await new Promise((resolve) => setTimeout(resolve));
    return now.map(({ page }) => page);
  };
  return { pages, waiting, release, arrived, failed };
}

describe('pages of rows', () => {
  test('hold nothing until they are fetched', async () => {
    const { pages, release, arrived } = heldPages(1000);
    expect(pages.row(3)).toBeUndefined();
    pages.want(0, 30, 1000);
    expect(await release()).toEqual([0, 1]);
    expect(pages.row(3)).toBe(3);
    expect(pages.row(PAGE_ROWS)).toBe(PAGE_ROWS);
    expect(arrived).toHaveBeenCalledTimes(2);
  });

  test('fetch a page once, however often it is wanted', async () => {
    const { pages, waiting, release } = heldPages(100);
    pages.want(0, 30, 100);
    pages.want(1, 31, 100);
    expect(waiting).toHaveLength(1);
    await release();
    pages.want(2, 32, 100);
    expect(waiting).toHaveLength(0);
  });

  test('never fetch what was scrolled past while others were fetched', async () => {
    const { pages, release } = heldPages(1_000_000);
    pages.want(0, 30, 1_000_000);
    for (let row = 1000; row < 900_000; row += 1000) pages.want(row, row + 30, 1_000_000);
    await release();
    const [last] = await release();
    expect(last).toBe(Math.floor(899_000 / PAGE_ROWS));
  });

  test('reach no further than the rows go', async () => {
    const { pages, release } = heldPages(300);
    pages.want(290, 299, 300);
    expect(await release()).toEqual([2, 1]);
    pages.want(0, 10, 0);
    expect(await release()).toEqual([]);
    expect(pages.row(300)).toBeUndefined();
  });

  test('forget those used longest ago', async () => {
    const { pages, release } = heldPages(1_000_000);
    for (let page = 0; page < 40; page += 1) {
      pages.want(page * PAGE_ROWS, page * PAGE_ROWS + 9, 1_000_000);
      await release();
    }
    expect(pages.row(0)).toBeUndefined();
    expect(pages.row(39 * PAGE_ROWS)).toBe(39 * PAGE_ROWS);
  });

  test('can be waited for', async () => {
    const { pages, release } = heldPages(1000);
    const loaded = pages.load(100, 200);
    expect(await release()).toEqual([0, 1]);
    await loaded;
    expect(pages.row(200)).toBe(200);
  });

  test('say why they could not be fetched, and are fetched again when wanted again', async () => {
    const { pages, waiting, release, failed } = heldPages(100);
    pages.want(0, 30, 100);
    waiting.splice(0)[0]?.fail(new Error('The worker stopped.'));
    await release();
    expect(failed).toHaveBeenCalledExactlyOnceWith(new Error('The worker stopped.'));
    pages.want(0, 30, 100);
    await release();
    expect(pages.row(0)).toBe(0);
  });
});

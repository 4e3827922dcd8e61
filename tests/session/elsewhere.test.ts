import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Elsewhere } from '../../src/session/elsewhere.ts';
import { PageState } from '../../src/session/page-state.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('imports of other tabs are shown as long as they run, also where their tab ends without a word', async () => {
  let running: readonly string[] = ['shift-07.csv'];
  const page = new PageState('.');
  await new Elsewhere(page, () => Promise.resolve(running)).look();
  expect(page.current.elsewhere).toEqual(['shift-07.csv']);
  running = [];
  await vi.advanceTimersByTimeAsync(4_000);
  expect(page.current.elsewhere).toBeUndefined();
  expect(vi.getTimerCount()).toBe(0);
});

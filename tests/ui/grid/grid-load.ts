import '../../../src/ui/grid/readings-grid.ts';
import type { ReadingsGrid } from '../../../src/ui/grid/readings-grid.ts';
import { adoptTokens } from '../../../src/ui/styles/tokens.ts';
import { fakeLog, fakeSession } from './fake-session.ts';

/** Times in milliseconds. */
export interface GridTimes {
  /** From the grid's place in the page to its first rows, drawn. */
  readonly first: number;
  /** From a jump of the scroll bar to the rows there, drawn. */
  readonly jumps: readonly number[];
  /** Between frames while the rows are scrolled, by some rows at each frame. */
  readonly frames: readonly number[];
  /** Longest time for which rows waited for their readings while scrolling. */
  readonly longestWait: number;
  /** Times from a key to the frame that shows the next row as current. */
  readonly keys: readonly number[];
}

/** How long the stand-in for the worker takes to answer. */
const ANSWER_MS = 4;
const JUMPS = 60;
const FRAMES = 300;
const KEYS = 60;
const ROWS_PER_FRAME = 9;

/** Measures the grid in this page over a log of so many rows, with a stand-in for the worker. */
export async function measureGrid(rows: number): Promise<GridTimes> {
  adoptTokens(document);
  const grid = document.createElement('bt-readings-grid');
  grid.style.height = '800px';
  grid.session = fakeSession(fakeLog(rows), { delay: ANSWER_MS }).session;
  const start = performance.now();
  document.body.append(grid);
  await framesUntil(() => grid.shadowRoot?.querySelector('.row .reading') != null);
  const first = performance.now() - start;
  const scroller = grid.shadowRoot?.querySelector('.scroller');
  if (scroller == null) throw new Error('There is nothing to scroll.');
  const jumps = await jump(grid, scroller);
  const { frames, longestWait } = await scroll(grid, scroller);
  return { first, jumps, frames, longestWait, keys: await press(grid) };
}

async function jump(grid: ReadingsGrid, scroller: Element): Promise<number[]> {
  const times: number[] = [];
  // Steps of the golden ratio reach all parts of the log without coming near the place before.
  for (let index = 1; index <= JUMPS; index += 1) {
    const before = firstRow(grid);
    const start = performance.now();
    scroller.scrollTop = ((index * 0.618_034) % 1) * scroller.scrollHeight;
    await framesUntil(() => firstRow(grid) !== before && !waits(grid));
    times.push(performance.now() - start);
  }
  return times;
}

async function scroll(grid: ReadingsGrid, scroller: Element): Promise<Pick<GridTimes, 'frames' | 'longestWait'>> {
  const height = grid.shadowRoot?.querySelector('.row')?.getBoundingClientRect().height ?? 0;
  const frames: number[] = [];
  let longestWait = 0;
  let waitingSince: number | undefined;
  let last = await nextFrame();
  for (let frame = 0; frame < FRAMES; frame += 1) {
    const deltaY = ROWS_PER_FRAME * height;
    // An event that a script makes scrolls nothing by itself; the grid takes it over where the scroll bar is scaled.
    const left = scroller.dispatchEvent(new WheelEvent('wheel', { deltaY, bubbles: true, cancelable: true }));
    if (left) scroller.scrollTop += deltaY;
    const now = await nextFrame();
    frames.push(now - last);
    last = now;
    if (!waits(grid)) waitingSince = undefined;
    else longestWait = Math.max(longestWait, now - (waitingSince ??= now));
  }
  return { frames, longestWait };
}

async function press(grid: ReadingsGrid): Promise<number[]> {
  grid.focus();
  await nextFrame();
  const times: number[] = [];
  for (let key = 0; key < KEYS; key += 1) {
    const before = grid.shadowRoot?.activeElement;
    const start = performance.now();
    before?.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true, composed: true }));
    await framesUntil(() => grid.shadowRoot?.activeElement !== before);
    times.push(performance.now() - start);
  }
  return times;
}

function firstRow(grid: ReadingsGrid): string | null | undefined {
  return grid.shadowRoot?.querySelector('.row:not(.current)')?.getAttribute('aria-rowindex');
}

function waits(grid: ReadingsGrid): boolean {
  return grid.shadowRoot?.querySelector('.row:not(.pinned) .waiting') != null;
}

function nextFrame(): Promise<number> {
  return new Promise((resolve) => requestAnimationFrame(resolve));
}

async function framesUntil(isReached: () => boolean): Promise<void> {
  do await nextFrame();
  while (!isReached());
}

/** What the page saw while its rows were flung; times in milliseconds. */
export interface Flung {
  /** Between one frame and the next. */
  readonly frames: readonly number[];
  /** The longest time for which a row in sight waited for its reading. */
  readonly longestBlank: number;
}

/** Goes to an address and waits until the grid there shows other lines than before, or is gone. Runs in the page: all it needs stands inside it. @returns milliseconds */
export async function timeOfChange(hash: string): Promise<number> {
  const shown = (): string | undefined => {
    let root: ParentNode | null | undefined = document;
    for (const tag of ['bt-app', 'bt-readings-place', 'bt-readings-grid']) root = root?.querySelector(tag)?.shadowRoot;
    const scroller = root?.querySelector('.scroller');
    const row = scroller?.querySelector('.row:not(.pinned)');
    if (scroller == null || row == null || scroller.getAttribute('aria-busy') === 'true') return undefined;
    return row.querySelector('.waiting') === null
      ? `${scroller.getAttribute('aria-rowcount') ?? ''} ${row.textContent}`
      : undefined;
  };
  const before = shown();
  const started = performance.now();
  location.hash = hash;
  for (;;) {
    await new Promise((resolve) => requestAnimationFrame(resolve));
    const now = shown();
    if (hash.startsWith('#/readings') ? now !== undefined && now !== before : now === undefined) break;
    if (performance.now() - started > 20_000) throw new Error(`Nothing new was shown at ${hash}.`);
  }
  return performance.now() - started;
}

/** Watches frames and waiting rows until it is told to stop by an event. Runs in the page, as above. */
export async function watchFlinging(): Promise<Flung> {
  let root: ParentNode | null | undefined = document;
  for (const tag of ['bt-app', 'bt-readings-place', 'bt-readings-grid']) root = root?.querySelector(tag)?.shadowRoot;
  const over = new AbortController();
  addEventListener(
    'flung',
    () => {
      over.abort();
    },
    { once: true },
  );
  const frames: number[] = [];
  let longestBlank = 0;
  let blankSince: number | undefined;
  let last = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
  while (!over.signal.aborted) {
    const now = await new Promise<number>((resolve) => requestAnimationFrame(resolve));
    frames.push(now - last);
    last = now;
    const waits = root?.querySelector('.row:not(.pinned) .waiting') != null;
    blankSince = waits ? (blankSince ?? now) : undefined;
    if (blankSince !== undefined) longestBlank = Math.max(longestBlank, now - blankSince);
  }
  return { frames, longestBlank };
}

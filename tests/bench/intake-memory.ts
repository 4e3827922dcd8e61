import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';

/** How often the memory is looked at, in milliseconds. */
const INTERVAL = 20;

/**
 * The most memory that the page's process takes in RAM while `work` runs, beyond what it took before, in bytes. What is not yet collected
 * counts too, so it is no less than what the work needs. Undefined where the machine does not tell (other than Linux).
 */
export async function peakMemory(page: Page, work: () => Promise<unknown>): Promise<number | undefined> {
  const browser = page.context().browser();
  if (!browser) return undefined;
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  const renderers = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => id);
  const taken = (): number => Math.max(0, ...renderers.map(residentBytes));
  const before = taken();
  let peak = before;
  const timer = setInterval(() => (peak = Math.max(peak, taken())), INTERVAL);
  try {
    await work();
  } finally {
    clearInterval(timer);
  }
  return before > 0 ? peak - before : undefined;
}

function residentBytes(id: number): number {
  try {
    const [, kilobytes] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${id}/status`, 'utf8')) ?? [];
    return Number(kilobytes ?? 0) * 1024;
  } catch {
    return 0;
  }
}

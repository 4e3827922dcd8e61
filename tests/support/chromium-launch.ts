import { chromium, type Browser } from 'playwright-core';
import { chromiumArguments, ensureChromium } from './chromium.ts';

/** Starts a headless Chromium; the caller closes it. */
export function launchChromium(): Promise<Browser> {
  return chromium.launch({ executablePath: ensureChromium(), args: [...chromiumArguments] });
}

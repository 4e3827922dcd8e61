import { chromium, type Browser } from 'playwright-core';
import { chromiumArguments, ensureChromium } from './chromium.ts';
import { PATIENCE } from './patience.ts';

/** Starts a headless Chromium, in which every wait is as patient as the tests; the caller closes it. */
export async function launchChromium(): Promise<Browser> {
  const browser = await chromium.launch({ executablePath: ensureChromium(), args: [...chromiumArguments] });
  browser.on('context', (context) => {
    context.setDefaultTimeout(PATIENCE);
  });
  return browser;
}

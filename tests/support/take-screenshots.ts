// Builds the page, opens the sample and shoots every place, light and dark, in two sizes: npm run screenshots
import { mkdirSync } from 'node:fs';
import { launchChromium } from './chromium-launch.ts';
import { serveBuiltPage } from './serve-built-page.ts';

const FOLDER = '.cache/screenshots';
/** The one picture that the README shows. */
const README_PICTURE = 'tests/support/readme/readings.png';
const SIZES = [
  { width: 1280, height: 800 },
  { width: 1920, height: 1080 },
] as const;
const THEMES = ['light', 'dark'] as const;
/** Each view by its address. */
const VIEWS = [
  'shift',
  'readings',
  'repairs',
  'repairs/T-0131',
  'bands?family=HERON-48',
  'families',
  'families/HERON-48',
] as const;

/** What a file of a view is called: its address without the signs that a file's name cannot hold. */
function nameOf(view: string): string {
  return view.replaceAll(/[^A-Za-z0-9-]+/g, '-');
}

mkdirSync(FOLDER, { recursive: true });
mkdirSync('tests/support/readme', { recursive: true });
const { port, close } = await serveBuiltPage('node_modules/.tmp/screenshots', 0);
const browser = await launchChromium();
try {
  for (const viewport of SIZES) {
    for (const colorScheme of THEMES) {
      const page = await browser.newPage({ viewport, colorScheme, reducedMotion: 'reduce' });
      await page.goto(`http://127.0.0.1:${port}/`);
      await page.getByText(/files on the bench:/).waitFor();
      for (const view of VIEWS) {
        await page.goto(`http://127.0.0.1:${port}/#/${view}`);
        await page.waitForTimeout(500);
        const path = `${FOLDER}/${nameOf(view)}-${viewport.width}-${colorScheme}.png`;
        await page.screenshot({ path });
        console.log(path);
        if (view === 'readings' && viewport.width === 1280 && colorScheme === 'light') {
          await page.screenshot({ path: README_PICTURE });
          console.log(README_PICTURE);
        }
      }
      await page.close();
    }
  }
} finally {
  await browser.close();
  await close();
}

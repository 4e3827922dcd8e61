import { resolve } from 'node:path';
import process from 'node:process';
import type { TestProject } from 'vitest/node';
import { ensureChromium } from './chromium.ts';
import { buildPortableFile, serveBuiltPage } from './serve-built-page.ts';

declare module 'vitest' {
  interface ProvidedContext {
    /** Address of the built page, with a slash at its end. */
    baseUrl: string;
    /** Path of the folder of the built page. */
    builtPath: string;
    /** Path of the page as one file. */
    portablePath: string;
  }
}

/**
 * Gives whole-page tests the built page: the one that the test command has built and serves already, else one that is built and served here; a folder
 * of its own leaves a page that is being served untouched.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const { TESTED_PAGE, TESTED_ADDRESS } = process.env;
  const provide = (built: string, portable: string, address: string): void => {
    project.provide('builtPath', resolve(built));
    project.provide('portablePath', resolve(portable));
    project.provide('baseUrl', address);
  };
  if (TESTED_PAGE !== undefined && TESTED_ADDRESS !== undefined) {
    provide(TESTED_PAGE, `${TESTED_PAGE}-portable/benchtally.html`, TESTED_ADDRESS);
    return () => Promise.resolve();
  }
  ensureChromium();
  const built = `node_modules/.tmp/${project.name}`;
  const { port, close } = await serveBuiltPage(built, 0);
  provide(built, buildPortableFile(`${built}-portable`), `http://127.0.0.1:${port}/`);
  return close;
}

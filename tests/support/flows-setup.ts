import { resolve } from 'node:path';
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

/** Builds and serves the page for the flows; a folder of its own leaves a page that is being served untouched. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  ensureChromium();
  const built = `node_modules/.tmp/${project.name}`;
  const { port, close } = await serveBuiltPage(built, 0);
  project.provide('builtPath', resolve(built));
  project.provide('portablePath', buildPortableFile(`${built}-portable`));
  project.provide('baseUrl', `http://127.0.0.1:${port}/`);
  return close;
}

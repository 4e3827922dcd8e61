import type { Page } from 'playwright-core';
import { createServer, defaultClientConditions, type Plugin } from 'vite';
import { launchChromium } from './chromium-launch.ts';

/** A page to measure in; `callInPage` and `callInWorker` run the project's modules in it. */
export interface BenchPage {
  readonly page: Page;
  /** Closes the browser and stops the server. */
  readonly close: () => Promise<void>;
}

const blankPage = '/blank.html';

/** Libraries are measured as the built page has them: without what they check while developing. */
const conditions = [...defaultClientConditions.filter((name) => name !== 'development|production'), 'production'];

/** Serves an empty page, so that the program itself does not start in the page it is measured in. */
const blankPagePlugin: Plugin = {
  name: 'blank-page',
  configureServer(server) {
    server.middlewares.use(blankPage, (_request, response) => {
      response.setHeader('Content-Type', 'text/html');
      for (const [name, value] of Object.entries(isolation)) response.setHeader(name, value);
      response.end('<!doctype html><title>Measurements</title>');
    });
  },
};

/** A page isolated from other origins has a clock of 5 microseconds instead of 100 (High Resolution Time, W3C, 2). */
const isolation = { 'Cross-Origin-Opener-Policy': 'same-origin', 'Cross-Origin-Embedder-Policy': 'require-corp' };

/** Opens an empty page in headless Chromium on a server of the project's sources. */
export async function openBenchPage(): Promise<BenchPage> {
  const server = await createServer({
    logLevel: 'warn',
    cacheDir: 'node_modules/.vite/bench',
    server: { host: '127.0.0.1', port: 0, hmr: false, watch: null, headers: isolation },
    resolve: { conditions },
    // Listed up front: a dependency met halfway would be bundled anew, under the page that waits for it.
    optimizeDeps: { include: ['arquero'] },
    plugins: [blankPagePlugin],
  });
  await server.listen();
  const browser = await launchChromium();
  const page = await browser.newPage();
  const [origin] = server.resolvedUrls?.local ?? [];
  if (origin === undefined) throw new Error('The server has no address.');
  await page.goto(new URL(blankPage, origin).href);
  return {
    page,
    close: async () => {
      await browser.close();
      await server.close();
    },
  };
}

/**
 * Calls a function of a module in a module worker of the page.
 * @param modulePath address of the module on the server, such as '/src/columns/row-set.ts'
 * @param functionName name of the exported function
 * @param argument its one argument, and its result, are copied between page and worker
 * @throws Error with the worker's own message, where the module does not load or the function fails
 */
export function callInWorker(
  page: Page,
  modulePath: string,
  functionName: string,
  argument: unknown,
): Promise<unknown> {
  return page.evaluate(callInPageWorker, { modulePath, functionName, argument });
}

/** Calls a function of a module in the page itself; arguments, result and errors as for `callInWorker`. */
export async function callInPage(
  page: Page,
  modulePath: string,
  functionName: string,
  argument: unknown,
): Promise<unknown> {
  // As text, because the runner of these scripts rewrites every import() that it compiles.
  const module = await page.evaluateHandle<Record<string, (argument: unknown) => unknown>>(
    `import(${JSON.stringify(modulePath)})`,
  );
  return module.evaluate((exports, call) => exports[call.functionName]!(call.argument), { functionName, argument });
}

interface WorkerCall {
  readonly modulePath: string;
  readonly functionName: string;
  readonly argument: unknown;
}

/** Runs in the page: everything it needs stands inside it. */
async function callInPageWorker({ modulePath, functionName, argument }: WorkerCall): Promise<unknown> {
  const module = JSON.stringify(new URL(modulePath, location.href).href);
  const source = `
    self.onmessage = async ({ data }) => {
      try {
        const module = await import(${module});
        self.postMessage({ result: await module[data.functionName](data.argument) });
      } catch (error) {
        self.postMessage({ message: String(error?.stack ?? error) });
      }
    };`;
  const address = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
  const worker = new Worker(address, { type: 'module' });
  try {
    return await new Promise((resolve, reject) => {
      worker.onerror = (event) => {
        reject(new Error(event.message));
      };
      worker.onmessage = ({ data }: MessageEvent<{ result?: unknown; message?: string }>) => {
        if (data.message === undefined) resolve(data.result);
        else reject(new Error(data.message));
      };
      worker.postMessage({ functionName, argument });
    });
  } finally {
    worker.terminate();
    URL.revokeObjectURL(address);
  }
}

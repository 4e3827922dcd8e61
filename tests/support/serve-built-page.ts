import { execFileSync } from 'node:child_process';
import { resolve } from 'node:path';
import process from 'node:process';
import { preview, type PreviewServer } from 'vite';

/** The built page on this machine's own address. */
export interface ServedPage {
  readonly port: number;
  /** Stops the server. */
  readonly close: () => Promise<void>;
}

/**
 * Builds the page and serves it to this machine alone, with the headers of a careful server.
 * @param outDir folder for the built page
 * @param port wanted port; the next free one is taken where it is in use, any free one for 0
 */
export async function serveBuiltPage(outDir: string, port: number): Promise<ServedPage> {
  build(outDir);
  const server = await preview({
    logLevel: 'warn',
    build: { outDir },
    preview: { host: '127.0.0.1', port, strictPort: false },
  });
  // A connection that is closed for being idle just as it is used again would fail what asks by it.
  if ('keepAliveTimeout' in server.httpServer) server.httpServer.keepAliveTimeout = 0;
  return { port: portOf(server), close: () => server.close() };
}

/** Builds in a process of its own, so that the libraries' production code is taken whatever runs this. */
export function build(outDir: string, mode = 'production'): void {
  const given = ['build', '--mode', mode, '--outDir', outDir, '--logLevel', 'warn'];
  execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', ...given], {
    stdio: ['ignore', 2, 2],
    env: { ...process.env, NODE_ENV: 'production' },
  });
}

/** Builds the page as one file that opens from disk. @returns its path */
export function buildPortableFile(outDir: string): string {
  build(outDir, 'portable');
  return resolve(outDir, 'benchtally.html');
}

function portOf(server: PreviewServer): number {
  const address = server.httpServer.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port.');
  return address.port;
}

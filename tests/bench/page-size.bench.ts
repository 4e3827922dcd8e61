import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { serveBuiltPage } from '../support/serve-built-page.ts';

const FOLDER = 'node_modules/.tmp/page-size';
const LOGS = readdirSync('sample-logs').map((name) => basename(name).replace(/\.\w+$/, ''));

/** The gzipped size of the built page's scripts: what the first view waits for, what is loaded after it, the invented logs. */
export async function run(print: (line: string) => void): Promise<void> {
  const { close } = await serveBuiltPage(FOLDER, 0);
  await close();
  const assets = join(FOLDER, 'assets');
  const names = readdirSync(assets).filter((name) => name.endsWith('.js'));
  const scripts = new Map(names.map((name) => [name, readFileSync(join(assets, name), 'utf8')]));
  const page = withImports(['index', 'shift-place'], scripts);
  const worker = withImports(['entry'], scripts);
  const isLog = (name: string): boolean => LOGS.some((log) => nameOf(name) === log);
  const size = (kept: (name: string) => boolean): string => {
    const bytes = names.filter(kept).map((name) => gzipSync(scripts.get(name)!).length);
    return `${(bytes.reduce((sum, one) => sum + one, 0) / 1000).toFixed(1)} kB gzipped`;
  };
  print(`the page's first view: ${size((name) => page.has(name))}`);
  print(`the worker: ${size((name) => worker.has(name))}`);
  print(`both: ${size((name) => page.has(name) || worker.has(name))}`);
  print(`loaded after the first view: ${size((name) => !page.has(name) && !worker.has(name) && !isLog(name))}`);
  print(`the sample's logs: ${size(isLog)}`);
}

/** A built script's name without the hash of its content. */
function nameOf(script: string): string {
  return script.replace(/-[\w-]{8}\.js$/, '');
}

/** Scripts by their names without hashes, and all that they import and so on, but for what is imported on demand. */
function withImports(starts: readonly string[], scripts: ReadonlyMap<string, string>): ReadonlySet<string> {
  const found = new Set([...scripts.keys()].filter((script) => starts.includes(nameOf(script))));
  if (found.size !== starts.length) throw new Error(`The build has no script for each of ${starts.join(', ')}.`);
  for (const script of found) {
    for (const [, imported = ''] of scripts.get(script)!.matchAll(/(?:from|import)"\.\/([^"]+)"/g)) found.add(imported);
  }
  return found;
}

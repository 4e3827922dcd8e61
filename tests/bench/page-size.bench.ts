import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { serveBuiltPage } from '../support/serve-built-page.ts';

const FOLDER = 'node_modules/.tmp/page-size';

/** The size of the built page's scripts; the invented logs, which load only for the sample, apart. */
export async function run(print: (line: string) => void): Promise<void> {
  const { close } = await serveBuiltPage(FOLDER, 0);
  await close();
  const assets = join(FOLDER, 'assets');
  const sizes = readdirSync(assets)
    .filter((name) => name.endsWith('.js'))
    .map((name) => ({ name, bytes: gzipSync(readFileSync(join(assets, name))).length }));
  const isProgram = ({ name }: { name: string }): boolean => /^(?:index|entry)-/.test(name);
  const sum = (some: typeof sizes): string => (some.reduce((total, { bytes }) => total + bytes, 0) / 1000).toFixed(1);
  for (const { name, bytes } of sizes.filter(isProgram)) print(`${name}: ${(bytes / 1000).toFixed(1)} kB gzipped`);
  print(`scripts of page and worker: ${sum(sizes.filter(isProgram))} kB gzipped`);
  print(`the sample's logs: ${sum(sizes.filter((one) => !isProgram(one)))} kB gzipped`);
}

import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, expect, inject, test } from 'vitest';
import { build } from '../support/serve-built-page.ts';

const again = `${inject('builtPath')}-again`;

afterAll(() => {
  rmSync(again, { recursive: true, force: true });
});

/** Every file of a build with its SHA-256. */
function hashesIn(folder: string): ReadonlyMap<string, string> {
  const files = readdirSync(folder, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile());
  const paths = files.map(({ parentPath, name }) => join(parentPath, name)).sort();
  return new Map(paths.map((path) => [path.slice(folder.length), createHash('sha256').update(readFileSync(path)).digest('hex')])); // prettier-ignore
}

/** Addresses that name something and are never asked for: a namespace, and the home of a library in its licence line. */
const NAMES = ['http://www.w3.org/2000/svg', 'http://www.w3.org/1999/xhtml', 'http://www.w3.org/1999/xlink', 'http://www.w3.org/XML/1998/namespace', 'http://www.w3.org/2000/xmlns/', 'https://github.com/mholt/PapaParse']; // prettier-ignore

test('no file of the built page holds an address of anywhere else', () => {
  for (const file of [...hashesIn(inject('builtPath')).keys()].map((path) => inject('builtPath') + path)) {
    if (/\.woff2?$/.test(file)) continue;
    const found = readFileSync(file, 'utf8').match(/https?:\/\/[\w./#-]+/g) ?? [];
    expect(found.filter((address) => !NAMES.includes(address)), file).toEqual([]); // prettier-ignore
    expect(readFileSync(file, 'utf8'), file).not.toMatch(/sourceMappingURL|rel="?(?:prefetch|dns-prefetch|preconnect)/);
  }
});

test('two builds of the same source are the same to the byte', () => {
  build(again);
  expect(hashesIn(again)).toEqual(hashesIn(inject('builtPath')));
});

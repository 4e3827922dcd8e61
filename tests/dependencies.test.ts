import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';

interface Locked {
  readonly dev?: boolean;
  readonly license?: string;
  readonly integrity?: string;
  readonly resolved?: string;
}

const root = new URL('../', import.meta.url);
const { packages } = JSON.parse(readFileSync(new URL('package-lock.json', root), 'utf8')) as {
  readonly packages: Readonly<Record<string, Locked>>;
};
const locked = Object.entries(packages).filter(([path]) => path !== '');
const nameOf = (path: string): string => path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);

/** All that may reach the built page. */
const RUNTIME = [
  '@fontsource/atkinson-hyperlegible-mono @fontsource/atkinson-hyperlegible-next',
  '@lit-labs/ssr-dom-shim @lit/reactive-element @types/trusted-types lit lit-element lit-html',
  'd3 d3-array d3-axis d3-brush d3-chord d3-color d3-contour d3-delaunay d3-dispatch d3-drag d3-dsv d3-ease d3-fetch',
  'd3-force d3-format d3-geo d3-hierarchy d3-interpolate d3-path d3-polygon d3-quadtree d3-random d3-scale',
  'd3-scale-chromatic d3-selection d3-shape d3-time d3-time-format d3-timer d3-transition d3-zoom',
  'commander delaunator iconv-lite internmap robust-predicates rw safer-buffer',
  'idb papaparse simple-statistics',
].flatMap((line) => line.split(' '));

const LICENCES = ['0BSD', 'Apache-2.0', 'BSD-2-Clause', 'BSD-3-Clause', 'BlueOak-1.0.0', 'CC0-1.0', 'ISC', 'MIT', 'MPL-2.0', 'OFL-1.1', 'Unlicense']; // prettier-ignore

describe('the packages that are installed', () => {
  test('reach the built page only where they are on the list', () => {
    const runtime = locked.filter(([, { dev }]) => dev !== true).map(([path]) => nameOf(path));
    expect(new Set(runtime)).toEqual(new Set(RUNTIME));
  });

  test('each have a sum of their content, and a licence that allows what is done with them', () => {
    for (const [path, { integrity, license }] of locked) {
      expect(integrity, path).toMatch(/^sha512-[\w+/]{86}==$/);
      expect(LICENCES, path).toContain(license);
    }
  });

  test('come from one place', () => {
    const hosts = new Set(
      locked.flatMap(([, { resolved }]) => (resolved === undefined ? [] : new URL(resolved).origin)),
    );
    expect(hosts.size).toBeLessThanOrEqual(1);
  });

  test('are asked for in one version each', () => {
    const asked = packages[''] as Record<'dependencies' | 'devDependencies', Readonly<Record<string, string>>>;
    for (const [name, version] of Object.entries({ ...asked.dependencies, ...asked.devDependencies }))
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

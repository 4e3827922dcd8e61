import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import process from 'node:process';
import { fileURLToPath } from 'node:url';
import { playwright } from '@vitest/browser-playwright';
import type { HtmlTagDescriptor, Plugin, Rolldown, UserConfig } from 'vite';
import { defineConfig } from 'vitest/config';
import { bundledWorker } from './tests/support/bundled-worker.ts';
import { chromiumArguments, findChromium } from './tests/support/chromium.ts';
import { PATIENCE, TEST_PATIENCE } from './tests/support/patience.ts';

/** What the built page may load: its own files, and nothing else. */
const contentSecurityPolicy = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "object-src 'none'",
  "require-trusted-types-for 'script'",
  'trusted-types lit-html benchtally',
].join('; ');

/** Writes the policy into the built page; a server's header adds what a meta element cannot carry. */
const policyInPage: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [policyTag(contentSecurityPolicy)],
};

function policyTag(policy: string): HtmlTagDescriptor {
  return { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' };
}

/** Adds a service worker that keeps every file of this build, answers from them, and drops those of earlier builds. */
const offlineCopy: Plugin = {
  name: 'offline-copy',
  apply: 'build',
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const hash = createHash('sha256');
      for (const [name, item] of Object.entries(bundle)) hash.update(name).update(contentOf(item));
      const files = ['./', ...Object.keys(bundle).filter((name) => name !== 'index.html')];
      const source = readFileSync(new URL('src/offline-worker.js', import.meta.url), 'utf8')
        .replace('__CACHE__', `benchtally-${hash.digest('hex').slice(0, 16)}`)
        .replace('__FILES__', files.join(' '));
      this.emitFile({ type: 'asset', fileName: 'offline.js', source });
    },
  },
};

/** Makes the page one file that opens from disk: script and style stand in it, each named by its hash in the policy. */
const portableFile: Plugin = {
  name: 'portable-file',
  apply: 'build',
  enforce: 'post',
  generateBundle: {
    order: 'post',
    handler(_, bundle) {
      const page = bundle['index.html'];
      if (page?.type !== 'asset') throw new Error('The build made no page.');
      let html = String(page.source);
      const hashes = { script: new Array<string>(), style: new Array<string>() };
      for (const [name, item] of Object.entries(bundle)) {
        if (item === page) continue;
        const kind = name.endsWith('.css') ? 'style' : 'script';
        const text = contentOf(item).toString().replaceAll('</script', '<\\/script');
        hashes[kind].push(`'sha256-${createHash('sha256').update(text).digest('base64')}'`);
        const element = kind === 'style' ? `<style>${text}</style>` : `<script type="module">${text}</script>`;
        html = html
          .replace(new RegExp(`<(script|link)[^>]*"[^"]*${name.replaceAll('.', '\\.')}"[^>]*>(</script>)?`), '')
          .replace('</body>', () => `${element}</body>`);
        Reflect.deleteProperty(bundle, name);
      }
      const policy = `default-src 'none'; script-src ${hashes.script.join(' ')}; style-src ${hashes.style.join(' ')}; img-src data: blob:; font-src data:; worker-src blob: data:; base-uri 'none'; form-action 'none'; object-src 'none'`;
      page.source = html.replace(
        '<head>',
        () => `<head>\n    <meta http-equiv="Content-Security-Policy" content="${policy}">`,
      );
      page.fileName = 'benchtally.html';
    },
  },
};

function contentOf(item: Rolldown.OutputAsset | Rolldown.OutputChunk): string | Uint8Array {
  return item.type === 'chunk' ? item.code : item.source;
}

const executablePath = findChromium();

const serverBuild: UserConfig = {
  build: { target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  worker: { format: 'es' },
  plugins: [policyInPage, offlineCopy],
};

/** Chromium runs only classic workers out of a blob on a page from disk, so the worker is a classic script here. */
const portableBuild: UserConfig = {
  build: {
    target: 'es2022',
    modulePreload: { polyfill: false },
    assetsInlineLimit: Number.MAX_SAFE_INTEGER,
    emptyOutDir: false,
    cssCodeSplit: false,
    rolldownOptions: { output: { codeSplitting: false } },
  },
  worker: { format: 'iife', rolldownOptions: { output: { codeSplitting: false } } },
  resolve: {
    alias: [
      { find: './start.ts', replacement: fileURLToPath(new URL('src/worker/start.portable.ts', import.meta.url)) },
    ],
  },
  plugins: [portableFile],
};

export default defineConfig(({ mode }) => ({
  base: './',
  ...(mode === 'portable' ? portableBuild : serverBuild),
  preview: {
    // The header covers the worker's script too, which no meta element of the page reaches.
    headers: {
      'Content-Security-Policy': `${contentSecurityPolicy}; frame-ancestors 'none'`,
      'Referrer-Policy': 'no-referrer',
      'X-Content-Type-Options': 'nosniff',
    },
  },
  test: {
    reporters: [
      'default',
      './tests/support/fault-table.ts',
      './tests/support/durations.ts',
      './tests/support/closing-line.ts',
    ],
    maxWorkers: 2,
    provide: { propertySeed: Number(process.env.PROPERTY_SEED ?? 20_260_314) },
    testTimeout: TEST_PATIENCE,
    hookTimeout: TEST_PATIENCE,
    expect: { poll: { timeout: PATIENCE, interval: 20 } },
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          // Core rooms are pure functions, so that files need no process of their own; each would load the rooms again.
          isolate: false,
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/flows/**', 'tests/faults/**'],
        },
      },
      {
        extends: true,
        plugins: [bundledWorker(fileURLToPath(new URL('src/worker/entry.ts', import.meta.url)))],
        // Listed up front: a dependency met halfway through a run would reload the page under its tests.
        optimizeDeps: {
          include: [
            'lit',
            'lit/decorators.js',
            'lit/directives/if-defined.js',
            'lit/directives/keyed.js',
            'lit/directives/live.js',
            'lit/directives/repeat.js',
            'd3',
            'idb',
            'papaparse',
            'simple-statistics',
            'axe-core',
            'fast-check',
          ],
        },
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          fileParallelism: false,
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            viewport: { width: 1280, height: 800 },
            provider: playwright({
              launchOptions: {
                args: [...chromiumArguments],
                ...(executablePath === undefined ? {} : { executablePath }),
              },
            }),
            instances: [{ browser: 'chromium' }],
          },
        },
      },
      {
        extends: true,
        test: {
          name: 'flows',
          include: ['tests/flows/**/*.test.ts'],
          globalSetup: ['tests/support/flows-setup.ts'],
        },
      },
      {
        extends: true,
        test: {
          name: 'faults',
          include: ['tests/faults/**/*.test.ts'],
          globalSetup: ['tests/support/flows-setup.ts'],
        },
      },
    ],
  },
}));

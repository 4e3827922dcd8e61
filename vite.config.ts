import { playwright } from '@vitest/browser-playwright';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { chromiumArguments, findChromium } from './tests/support/chromium.ts';

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
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: contentSecurityPolicy },
      injectTo: 'head-prepend',
    },
  ],
};

const executablePath = findChromium();

export default defineConfig({
  base: './',
  build: { target: 'es2022', modulePreload: { polyfill: false }, assetsInlineLimit: 0 },
  worker: { format: 'es' },
  plugins: [policyInPage],
  preview: {
    // The header covers the worker's script too, which no meta element of the page reaches.
    headers: {
      'Content-Security-Policy': `${contentSecurityPolicy}; frame-ancestors 'none'`,
      'Referrer-Policy': 'no-referrer',
      'X-Content-Type-Options': 'nosniff',
    },
  },
  test: {
    reporters: ['default', './tests/support/closing-line.ts'],
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: 'node',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/browser/**', 'tests/flows/**'],
          testTimeout: 20_000,
        },
      },
      {
        extends: true,
        // Listed up front: a dependency met halfway through a run would reload the page under its tests.
        optimizeDeps: {
          include: [
            'lit',
            'lit/decorators.js',
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
          testTimeout: 20_000,
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
          // After the others: two cores are not enough for a browser and a crowd of tests at once.
          sequence: { groupOrder: 1 },
          fileParallelism: false,
          testTimeout: 30_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});

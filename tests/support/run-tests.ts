// Checks types and style and runs every test: npm test [-- --slow | vitest's arguments]
//   --slow names the twenty tests that took longest; with arguments of vitest these tests alone are run.
import { existsSync, readFileSync, rmSync } from 'node:fs';
import process from 'node:process';
import { ensureChromium } from './chromium.ts';
import { closingLine, type Tally } from './closing-line.ts';
import { DURATIONS, slowest, type Duration } from './durations.ts';
import { buildPortableFile, serveBuiltPage, type ServedPage } from './serve-built-page.ts';
import { lintParts, runPart, type Part, type PartResult } from './test-parts.ts';

const BUILT = 'node_modules/.tmp/tested';
const SLOWEST = 20;
/** Public test files of other CSV readers, kept outside the project. */
const CORPUS = '../shared/csv-corpus';

const given = process.argv.slice(2);
const namesSlowest = given.includes('--slow');
const chosen = given.filter((argument) => argument !== '--slow');

/** Runs parts one after the other, from a list that several runners may share. */
async function drain(parts: Part[], results: PartResult[]): Promise<void> {
  for (let part = parts.shift(); part !== undefined; part = parts.shift()) results.push(await runPart(part));
}

/** All parts: two cores are kept busy by checks and Node on one side, and browsers, which wait as much as they work, on the other. */
async function runAll(): Promise<readonly PartResult[]> {
  const results: PartResult[] = [];
  const node: Part = vitest('Node', ['--project', 'node']);
  const elements: Part = vitest('elements in Chromium', ['--project', 'browser']);
  const served = await buildAndServe(results);
  if (served === undefined) return results;
  const environment = { TESTED_PAGE: BUILT, TESTED_ADDRESS: `http://127.0.0.1:${served.port}/` };
  const pages = vitest('whole pages', ['--project', 'flows', '--project', 'faults'], environment);
  try {
    await Promise.all([drain([pages], results), drain([...lintParts, node], results), drain([elements], results)]);
  } finally {
    await served.close();
  }
  return results;
}

function vitest(name: string, given: readonly string[], environment: Readonly<Record<string, string>> = {}): Part {
  return { name, command: ['node_modules/vitest/vitest.mjs', 'run', ...given], environment };
}

/** One build and one server for all whole-page tests. */
async function buildAndServe(results: PartResult[]): Promise<ServedPage | undefined> {
  const begun = performance.now();
  const result = (failed: number): PartResult => ({
    name: 'build',
    seconds: (performance.now() - begun) / 1000,
    tally: { passed: 0, failed, skipped: 0 },
  });
  try {
    ensureChromium();
    const served = await serveBuiltPage(BUILT, 0);
    buildPortableFile(`${BUILT}-portable`);
    results.push(result(0));
    return served;
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    results.push(result(1));
    return undefined;
  }
}

function sumOf(results: readonly PartResult[]): Tally {
  const sum = (field: keyof Tally): number => results.reduce((total, { tally }) => total + tally[field], 0);
  return { passed: sum('passed'), failed: sum('failed'), skipped: sum('skipped') };
}

function printSlowest(): void {
  const read = (project: string): readonly Duration[] => {
    try {
      return JSON.parse(readFileSync(`${DURATIONS}/${project}.json`, 'utf8')) as readonly Duration[];
    } catch {
      return [];
    }
  };
  const all = ['node', 'browser', 'flows', 'faults'].flatMap(read);
  for (const { name, seconds } of slowest(all, SLOWEST)) console.log(`${seconds.toFixed(1).padStart(7)} s  ${name}`);
}

rmSync(DURATIONS, { recursive: true, force: true });
const begun = performance.now();
const results = chosen.length === 0 ? await runAll() : [await runPart(vitest(chosen.join(' '), chosen))];
const tally = sumOf(results);
for (const { name, seconds } of results) console.log(`${seconds.toFixed(0).padStart(5)} s  ${name}`);
console.log(`${((performance.now() - begun) / 1000).toFixed(0).padStart(5)} s  in all, parts run beside each other`);
if (namesSlowest) printSlowest();
if (tally.skipped > 0 && !existsSync(CORPUS))
  console.log(`Skipped: what reads the public CSV files, which are looked for in ${CORPUS} and are not there.`);
console.log(closingLine(tally));
if (tally.failed > 0 || tally.passed === 0) process.exitCode = 1;

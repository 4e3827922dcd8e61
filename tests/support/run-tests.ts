// Checks types and style, then runs every test: npm test [-- vitest's arguments]
import { spawn, spawnSync } from 'node:child_process';
import process from 'node:process';
import { createInterface } from 'node:readline';
import { ensureChromium } from './chromium.ts';
import { closingLine, parseClosingLine, type Tally } from './closing-line.ts';

const nothing: Tally = { passed: 0, failed: 0, skipped: 0 };

/** What a run counts as, whose checks or whose test program ended badly without a failed test to show for it. */
function withFailure(tally: Tally): Tally {
  return { ...tally, failed: Math.max(tally.failed, 1) };
}

/** Runs one of the project's own npm scripts and says whether it ended well; its output is passed on. */
function check(script: string): boolean {
  console.log(`npm run ${script}`);
  return spawnSync(`npm run --silent ${script}`, { shell: true, stdio: ['ignore', 1, 2] }).status === 0;
}

/** Runs the tests, passing their output on but for the closing line, which is held back to come last. */
async function runTests(vitestArguments: readonly string[]): Promise<Tally> {
  const environment = { ...process.env, ...(process.stdout.isTTY ? { FORCE_COLOR: '1' } : {}), NODE_ENV: 'test' };
  const child = spawn(process.execPath, ['node_modules/vitest/vitest.mjs', 'run', ...vitestArguments], {
    stdio: ['ignore', 'pipe', 'inherit'],
    env: environment,
  });
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  let tally = nothing;
  for await (const line of createInterface({ input: child.stdout })) {
    const counted = parseClosingLine(line);
    if (counted === undefined) console.log(line);
    else tally = counted;
  }
  return (await ended) === 0 ? tally : withFailure(tally);
}

async function runAll(): Promise<Tally> {
  if (!check('typecheck') || !check('lint')) return withFailure(nothing);
  try {
    ensureChromium();
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    return withFailure(nothing);
  }
  return runTests(process.argv.slice(2));
}

const tally = await runAll();
console.log(closingLine(tally));
if (tally.failed > 0 || tally.passed === 0) process.exitCode = 1;

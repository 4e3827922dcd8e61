// Draws anew for all properties, round after round, until the time is over or one fails: npm run fuzz [-- minutes]
import { randomInt } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import process from 'node:process';
import { runPart } from './test-parts.ts';

const minutes = Number(process.argv[2] ?? 10);
if (!(minutes > 0)) throw new Error('Say for how many minutes to draw: npm run fuzz -- 60');

/** The test files that hold properties; those in Chromium are left to the suite. */
const files = readdirSync('tests', { recursive: true, encoding: 'utf8' })
  .map((path) => `tests/${path.replaceAll('\\', '/')}`)
  .filter((path) => path.endsWith('.test.ts') && !path.startsWith('tests/browser/'))
  .filter((path) => readFileSync(path, 'utf8').includes('support/fast-check.ts'));

const end = performance.now() + minutes * 60_000;
let rounds = 0;
while (performance.now() < end && process.exitCode === undefined) {
  const seed = randomInt(2 ** 31);
  const { tally } = await runPart({
    name: `properties drawn from ${seed}`,
    command: ['node_modules/vitest/vitest.mjs', 'run', '--project', 'node', '--reporter', 'dot', '--reporter', './tests/support/closing-line.ts', ...files],
    environment: { PROPERTY_SEED: String(seed) },
  }); // prettier-ignore
  rounds += 1;
  if (tally.failed === 0) continue;
  console.log(
    `Drawn from ${seed}, a property does not hold. To see it again: PROPERTY_SEED=${seed} npx vitest run --project node FILE`,
  );
  console.log('To keep it, write the counterexample above into a test of its own beside the property.');
  process.exitCode = 1;
}
console.log(`${rounds} rounds over ${files.length} files of properties.`);

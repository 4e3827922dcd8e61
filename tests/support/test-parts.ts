import { spawn } from 'node:child_process';
import process from 'node:process';
import { createInterface } from 'node:readline';
import { parseClosingLine, type Tally } from './closing-line.ts';

/** A program of Node that checks or tests one part of the project. */
export interface Part {
  readonly name: string;
  readonly command: readonly string[];
  readonly environment?: Readonly<Record<string, string>>;
}

/** What a part came to; checks count no tests, and a failed one as a failure. */
export interface PartResult {
  readonly name: string;
  readonly seconds: number;
  readonly tally: Tally;
}

/** The checks of types and style, the same as `npm run typecheck` and `npm run lint`. */
export const lintParts: readonly Part[] = [
  { name: 'types', command: ['node_modules/typescript/bin/tsc', '-b'] },
  { name: 'style: eslint', command: ['node_modules/eslint/bin/eslint.js', '--max-warnings', '0', '.'] },
  {
    name: 'style: lit-analyzer',
    command: ['node_modules/lit-analyzer/cli.js', '--strict', '--rules.no-invalid-css', 'off', '--maxWarnings', '0', 'src/ui/**/*.ts'], // prettier-ignore
  },
  { name: 'style: knip', command: ['node_modules/knip/bin/knip.js'] },
  {
    name: 'style: prettier',
    command: ['node_modules/prettier/bin/prettier.cjs', '--check', '--log-level', 'warn', '.'],
  },
];

/** Runs a part. Its output is passed on as a whole when it ends, so that parts that run beside each other can be told apart. */
export async function runPart({ name, command, environment = {} }: Part): Promise<PartResult> {
  const begun = performance.now();
  console.log(`begins: ${name}`);
  const child = spawn(process.execPath, command, {
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, ...(process.stdout.isTTY ? { FORCE_COLOR: '1' } : {}), NODE_ENV: 'test', ...environment },
  });
  const ended = new Promise<number | null>((resolve) => child.once('close', resolve));
  const lines: string[] = [];
  let tally: Tally = { passed: 0, failed: 0, skipped: 0 };
  const take = async (stream: NodeJS.ReadableStream): Promise<void> => {
    for await (const line of createInterface({ input: stream })) {
      const counted = parseClosingLine(line);
      if (counted === undefined) lines.push(line);
      else tally = counted;
    }
  };
  await Promise.all([take(child.stdout), take(child.stderr)]);
  // A part that ended badly without a failed test to show for it counts as one failure.
  if ((await ended) !== 0) tally = { ...tally, failed: Math.max(tally.failed, 1) };
  const seconds = (performance.now() - begun) / 1000;
  console.log(
    [`\n== ${name}: ${tally.failed === 0 ? 'well' : 'FAILED'}, ${seconds.toFixed(0)} s`, ...lines].join('\n'),
  );
  return { name, seconds, tally };
}

import process from 'node:process';
import type { Reporter, TestModule } from 'vitest/node';

/** How many tests passed, failed and were skipped; an error outside of any test counts as failed. */
export interface Tally {
  readonly passed: number;
  readonly failed: number;
  readonly skipped: number;
}

/** The line that ends every run. */
export function closingLine({ passed, failed, skipped }: Tally): string {
  return `${passed} passed, ${failed} failed, ${skipped} skipped`;
}

/** Reads a closing line back; undefined for any other line. */
export function parseClosingLine(line: string): Tally | undefined {
  const match = /^(\d+) passed, (\d+) failed, (\d+) skipped$/.exec(line);
  if (match === null) return undefined;
  const [passed = 0, failed = 0, skipped = 0] = match.slice(1).map(Number);
  return { passed, failed, skipped };
}

/** Prints the closing line when the run has ended. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], errors: readonly unknown[]): void {
    const tally = { passed: 0, failed: errors.length, skipped: 0 };
    for (const module of modules) {
      tally.failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'pending') tally.skipped += 1;
        else tally[state] += 1;
      }
    }
    process.stdout.write(`\n${closingLine(tally)}\n`);
  }
}

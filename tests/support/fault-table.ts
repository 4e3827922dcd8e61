import process from 'node:process';
import type { Reporter, TestModule } from 'vitest/node';

declare module 'vitest' {
  interface TaskMeta {
    /** What the runs of one fault came to. */
    fault?: FaultTally;
  }
}

/** How often a fault was made to happen, and how often everything that was kept survived it. */
export interface FaultTally {
  /** The fault and its place in the plan, as `F2 tab closed`. */
  readonly fault: string;
  readonly runs: number;
  readonly survived: number;
}

/** Fault, runs, survived, lost: a line for each fault, those of one name added up, in the order of their names. */
export function faultTable(tallies: readonly FaultTally[]): string {
  const sums = new Map<string, { runs: number; survived: number }>();
  for (const { fault, runs, survived } of tallies) {
    const sum = sums.get(fault) ?? { runs: 0, survived: 0 };
    sums.set(fault, { runs: sum.runs + runs, survived: sum.survived + survived });
  }
  const lines = [...sums].map(([fault, { runs, survived }]) => [fault, `${runs}`, `${survived}`, `${runs - survived}`]);
  lines.sort(([one = ''], [other = '']) => one.localeCompare(other, 'en', { numeric: true }));
  const rows = [['fault', 'runs', 'survived', 'lost'], ...lines];
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows
    .map((row) => row.map((cell, at) => (at === 0 ? cell.padEnd(widths[at]!) : cell.padStart(widths[at]!))).join('  '))
    .join('\n');
}

/** Prints the table of faults when the run has ended, where there were any. */
export default class FaultTable implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const tests = modules.flatMap((module) => [...module.children.allTests()]);
    const tallies = tests.flatMap((test) => test.meta().fault ?? []);
    if (tallies.length > 0) process.stdout.write(`\n${faultTable(tallies)}\n`);
  }
}

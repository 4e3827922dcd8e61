import { mkdirSync, writeFileSync } from 'node:fs';
import type { Reporter, TestModule } from 'vitest/node';

/** The folder for how long tests took, a file for each project. */
export const DURATIONS = 'node_modules/.tmp/durations';

/** How long one test took. */
export interface Duration {
  readonly name: string;
  readonly seconds: number;
}

/** Those that took longest, the longest first. */
export function slowest(all: readonly Duration[], count: number): readonly Duration[] {
  return [...all].sort((one, other) => other.seconds - one.seconds).slice(0, count);
}

/** Writes how long each test took when the run has ended. */
export default class Durations implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]): void {
    const byProject = new Map<string, Duration[]>();
    for (const module of modules) {
      const own = byProject.get(module.project.name) ?? [];
      byProject.set(module.project.name, own);
      for (const test of module.children.allTests()) {
        const seconds = (test.diagnostic()?.duration ?? 0) / 1000;
        own.push({ name: `${module.relativeModuleId} > ${test.fullName}`, seconds });
      }
    }
    mkdirSync(DURATIONS, { recursive: true });
    for (const [project, own] of byProject) writeFileSync(`${DURATIONS}/${project}.json`, JSON.stringify(own));
  }
}

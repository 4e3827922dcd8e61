import { beforeEach, expect, test, vi } from 'vitest';
import { runPart } from './test-parts.ts';

const script = (text: string) => ['--eval', text];
let printed: string[];

beforeEach(() => {
  printed = [];
  const print = vi.spyOn(console, 'log').mockImplementation((line: string) => void printed.push(line));
  return () => {
    print.mockRestore();
  };
});

test('a part counts as its closing line says, which is held back; the rest is passed on', async () => {
  const { name, tally } = await runPart({
    name: 'tests',
    command: script('console.log("one line\\n7 passed, 0 failed, 2 skipped"); console.error("a warning")'),
  });
  expect({ name, tally }).toEqual({ name: 'tests', tally: { passed: 7, failed: 0, skipped: 2 } });
  const output = printed.join('\n');
  expect(output).toContain('one line');
  expect(output).toContain('a warning');
  expect(output).not.toContain('7 passed');
});

test('a check that ends well counts nothing', async () => {
  const { tally } = await runPart({ name: 'check', command: script('') });
  expect(tally).toEqual({ passed: 0, failed: 0, skipped: 0 });
});

test.each([
  ['without a closing line', 'process.exit(2)', { passed: 0, failed: 1, skipped: 0 }],
  ['after tests that passed', 'console.log("7 passed, 0 failed, 0 skipped"); process.exitCode = 1', { passed: 7, failed: 1, skipped: 0 }], // prettier-ignore
  ['after tests that failed', 'console.log("7 passed, 3 failed, 0 skipped"); process.exitCode = 1', { passed: 7, failed: 3, skipped: 0 }], // prettier-ignore
  ['by a signal', 'process.kill(process.pid)', { passed: 0, failed: 1, skipped: 0 }],
])('a part that ends badly %s counts as failed', async (_, text, tally) => {
  const result = await runPart({ name: 'part', command: script(text) });
  expect(result.tally).toEqual(tally);
  expect(printed.join('\n')).toContain('FAILED');
});

test('a part gets its own environment beside that of the run', async () => {
  await runPart({
    name: 'part',
    command: script('console.log(process.env.PART_OWN, process.env.NODE_ENV, "PATH" in process.env)'),
    environment: { PART_OWN: 'its own' },
  });
  expect(printed.join('\n')).toContain('its own test true');
});

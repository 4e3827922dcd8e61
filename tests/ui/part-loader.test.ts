import { describe, expect, test } from 'vitest';
import { PartLoader } from '../../src/ui/part-loader.ts';

/** Lets what has been loaded arrive. */
const settled = () => new Promise((resolve) => setTimeout(resolve));

/** Two parts that load at once or fail, as the test says, and a page that is idle when the test says. */
function page() {
  const asked: string[] = [];
  const failing = new Set<string>();
  const idle: (() => void)[] = [];
  let changes = 0;
  const loader = (part: string) => () => {
    asked.push(part);
    return failing.has(part) ? Promise.reject(new Error('not served')) : Promise.resolve();
  };
  const parts = new PartLoader(
    { first: loader('first'), second: loader('second') },
    () => (changes += 1),
    (work) => idle.push(work),
  );
  return {
    parts,
    asked,
    failing,
    changes: () => changes,
    becomeIdle: async () => {
      idle.shift()?.();
      await settled();
    },
  };
}

describe('PartLoader', () => {
  test('loads a part once, when it is first shown, and says when it is there', async () => {
    const { parts, asked, changes } = page();
    expect(parts.show('first')).toBe('loading');
    expect(parts.show('first')).toBe('loading');
    await settled();
    expect(parts.show('first')).toBe('ready');
    expect(asked).toEqual(['first']);
    expect(changes()).toBe(1);
  });

  test('loads the other parts ahead once the page is idle, one at a time', async () => {
    const { parts, asked, becomeIdle } = page();
    parts.show('first');
    await settled();
    expect(asked).toEqual(['first']);
    await becomeIdle();
    await becomeIdle();
    expect(asked).toEqual(['first', 'second']);
    expect(parts.show('second')).toBe('ready');
  });

  test('says that a part could not be loaded, and loads it when asked again', async () => {
    const { parts, failing, changes } = page();
    failing.add('second');
    parts.show('second');
    await settled();
    expect(parts.show('second')).toBe('failed');
    failing.clear();
    parts.tryAgain('second');
    expect(parts.show('second')).toBe('loading');
    await settled();
    expect(parts.show('second')).toBe('ready');
    expect(changes()).toBe(3);
  });

  test('says nothing of a part that failed ahead, and loads it again when it is shown', async () => {
    const { parts, failing, asked, changes, becomeIdle } = page();
    failing.add('second');
    parts.show('first');
    await settled();
    await becomeIdle();
    await becomeIdle();
    expect(asked).toEqual(['first', 'second']);
    expect(changes()).toBe(1);
    failing.clear();
    expect(parts.show('second')).toBe('loading');
    await settled();
    expect(parts.show('second')).toBe('ready');
  });
});

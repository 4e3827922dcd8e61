import { describe, expect, test } from 'vitest';
import { DraftController, type Stored } from '../../../src/ui/controllers/draft-controller.ts';

/** A form over something stored that a test changes as another tab would. */
function formOver(first: Stored<string>) {
  let stored: Stored<string> | undefined = first;
  const host = {
    addController: () => undefined,
    removeController: () => undefined,
    requestUpdate: () => undefined,
    updateComplete: Promise.resolve(true),
  };
  const draft = new DraftController<string>(host, () => stored);
  draft.hostUpdate();
  return {
    draft,
    store: (next: Stored<string> | undefined) => {
      stored = next;
      draft.hostUpdate();
    },
  };
}

const band = (draft: string): Stored<string> => ({ subject: '12V main', draft });

describe('a draft', () => {
  test('follows what is stored until somebody types', () => {
    const { draft, store } = formOver(band('5 %'));
    store(band('4 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['4 %', false]);
  });

  test('stays as it is typed, and is outdated where something else is stored by then', () => {
    const { draft, store } = formOver(band('5 %'));
    draft.type('3');
    store(band('5 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['3', false]);
    store(band('4 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['3', true]);
  });

  test.each([
    ['goes on', 'keepTyped', '3'],
    ['gives way', 'takeStored', '4 %'],
  ] as const)('%s where that is chosen, until the next change elsewhere', (_, choice, shown) => {
    const { draft, store } = formOver(band('5 %'));
    draft.type('3');
    store(band('4 %'));
    draft[choice]();
    expect([draft.draft, draft.isOutdated]).toEqual([shown, false]);
    draft.type('2');
    store(band('6 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['2', true]);
  });

  test('that was saved comes back as it is stored, whatever became of its spelling', () => {
    const { draft, store } = formOver(band('5 %'));
    draft.type(' 3 % ');
    draft.saved();
    store(band('5 %'));
    expect(draft.draft).toBe(' 3 % ');
    store(band('3 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['3 %', false]);
  });

  test('that another tab typed as well is no question', () => {
    const { draft, store } = formOver(band('5 %'));
    draft.type('4 %');
    store(band('4 %'));
    store(band('3 %'));
    expect([draft.draft, draft.isOutdated]).toEqual(['3 %', false]);
  });

  test('of another thing begins anew', () => {
    const { draft, store } = formOver(band('5 %'));
    draft.type('3');
    store({ subject: 'bulk', draft: '10 %' });
    expect([draft.draft, draft.isOutdated]).toEqual(['10 %', false]);
  });

  test('outlasts a while in which nothing stored is known', () => {
    const { draft, store } = formOver(band('5 %'));
    draft.type('3');
    store(undefined);
    expect([draft.draft, draft.isOutdated]).toEqual(['3', false]);
  });

  test('written with another decimal mark is not outdated: the version tells', () => {
    const { draft, store } = formOver({ ...band('5.5 %'), version: 1 });
    draft.type('3');
    store({ ...band('5,5 %'), version: 1 });
    expect(draft.isOutdated).toBe(false);
    store({ ...band('5,5 %'), version: 2 });
    expect(draft.isOutdated).toBe(true);
  });
});

import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/names-list.ts';
import type { UnknownName } from '../../src/session/answers.ts';
import { openSession } from './app-bench.ts';
import { all, show, violations } from './app-page.ts';

const names: readonly UnknownName[] = [
  { kind: 'family', name: 'HERON 48', readings: 2, alike: ['HERON-48'], same: 'HERON-48' },
  { kind: 'point', name: '12 V', family: 'HERON-48', readings: 1, alike: ['12V main'] },
  { kind: 'meter', name: 'M9', readings: 40, alike: [] },
];

async function showNames(list = names) {
  const opened = await openSession({
    answerNames: () => ({ readings: 0, repairs: 0, families: 0, bands: 0 }),
    meters: () => [],
  });
  return { ...opened, element: await show('bt-names-list', { session: opened.session, names: list }) };
}

describe('<bt-names-list>', () => {
  test('renders', async () => {
    const { element } = await showNames();
    expect(
      all(element, 'li > span:first-child').map((line) => line.textContent.replaceAll(/\s+/g, ' ').trim()),
    ).toEqual(['HERON 48 in 2 readings, is', '12 V of HERON-48, in 1 reading, is', 'M9 in 40 readings, is']);
    const [meanings] = all(element, 'select');
    // The likeliest first, then the other families that there are.
    expect([...meanings!.querySelectorAll('option')].map((option) => option.value)).toEqual(['HERON-48', 'PLOVER-32']);
  });

  test('is accessible', async () => {
    const { element } = await showNames();
    expect(await violations(element)).toEqual([]);
  });

  test('shows nothing where every name is known', async () => {
    const { element } = await showNames([]);
    expect(all(element, 'h2, li')).toHaveLength(0);
  });
});

describe('an answer', () => {
  test('says that a name is new', async () => {
    const { client } = await showNames();
    await page.getByRole('button', { name: 'a new meter: M9' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'answerNames')?.args)
      .toEqual([[{ kind: 'meter', name: 'M9' }]]);
    await expect.element(page.getByText('M9 is a new meter.')).toBeVisible();
  });

  test('says by keyboard that a name is another one for a known name', async () => {
    const { client } = await showNames();
    const choice = page.getByRole('combobox', { name: 'The board family that HERON 48 is another name for' });
    await userEvent.selectOptions(choice, 'PLOVER-32');
    (page.getByRole('button', { name: 'Take it as that: HERON 48' }).element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'answerNames')?.args)
      .toEqual([[{ kind: 'family', name: 'HERON 48', meaning: 'PLOVER-32' }]]);
  });

  test('names the family of a point', async () => {
    const { client } = await showNames();
    await page.getByRole('button', { name: 'Take it as that: 12 V' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'answerNames')?.args)
      .toEqual([[{ kind: 'point', name: '12 V', family: 'HERON-48', meaning: '12V main' }]]);
  });
});

describe('all at once', () => {
  test('names are new after it was asked once more', async () => {
    const { client } = await showNames();
    await page.getByRole('button', { name: 'Take all 3 as new…' }).click();
    await expect.poll(() => client.calls.some(({ name }) => name === 'answerNames')).toBe(false);
    await page.getByRole('button', { name: 'Take all as new', exact: true }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'answerNames')?.args[0])
      .toEqual([
        { kind: 'family', name: 'HERON 48' },
        { kind: 'point', name: '12 V', family: 'HERON-48' },
        { kind: 'meter', name: 'M9' },
      ]);
    await expect.element(page.getByText('3 names are new.')).toBeVisible();
  });

  test('names that differ in case, blanks and punctuation alone are those that are known', async () => {
    const { client } = await showNames();
    await page.getByRole('button', { name: 'Take 1 name that is spelled otherwise as the one that is known' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'answerNames')?.args[0])
      .toEqual([{ kind: 'family', name: 'HERON 48', meaning: 'HERON-48' }]);
  });
});

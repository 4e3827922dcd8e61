import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Family } from '../../src/domain/family.ts';
import '../../src/ui/panels/bands-place.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { drawn, focusedName, show, violations } from './app-page.ts';
import { openBands } from './bands-bench.ts';

const known = {
  name: 'HERON-48',
  boost: true,
  points: [{ name: 'Q1 D→S', role: 'part', part: 'Q1' }],
  parts: [{ designator: 'Q1', nodes: ['drain', 'source'] }],
} as const;

async function showFamily(family?: string, own: FakeAnswers = {}) {
  const opened = await openBands({ bands: () => ({ families: [known], bands: [], without: [] }), ...own });
  const route = parseRoute(bandsHash('family', family === undefined ? {} : { family }));
  const place = await show('bt-bands-place', { session: opened.session, route });
  await drawn(place);
  return { place, ...opened };
}

describe('the family editor', () => {
  test('renders', async () => {
    await showFamily('HERON-48');
    await expect.element(page.getByRole('heading', { level: 1, name: 'Points and parts of HERON-48' })).toBeVisible();
    await expect.element(page.getByLabelText('Name of point 1')).toHaveValue('Q1 D→S');
    await expect.element(page.getByLabelText('Role of Q1 D→S')).toHaveValue('part');
    await expect.element(page.getByLabelText('Second node of Q1')).toHaveValue('source');
    await expect.element(page.getByRole('checkbox')).toBeChecked();
  });

  test('is accessible', async () => {
    const { place } = await showFamily('HERON-48');
    expect(await violations(place)).toEqual([]);
    const fresh = await showFamily();
    expect(await violations(fresh.place)).toEqual([]);
  });

  test('makes a family from nothing, and leads on to its proposals', async () => {
    const { client } = await showFamily();
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('A family needs a name.');
    await page.getByLabelText('name', { exact: true }).fill('WREN-24');
    await page.getByLabelText('Name of point 1').fill('Q1 D→S');
    await expect.element(page.getByLabelText('Part of Q1 D→S')).toHaveValue('Q1');
    await page.getByRole('button', { name: 'Add a point' }).click();
    await userEvent.keyboard('5V standby');
    await expect.element(page.getByLabelText('Role of 5V standby')).toHaveValue('standby');
    for (const [at, part] of ['Q1', 'Q2'].entries()) {
      if (at > 0) await page.getByRole('button', { name: 'Add a part' }).click();
      await page.getByLabelText(`Designator of part ${at + 1}`).fill(part);
      await page.getByLabelText(`First node of ${part}`).fill('drain');
      await page.getByLabelText(`Second node of ${part}`).fill('source');
    }
    await expect.element(page.getByText('Q1 and Q2 lie across the same nodes', { exact: false })).toBeVisible();
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect.element(page.getByText('WREN-24 has 2 test points and 2 parts now.')).toBeVisible();
    expect(client.calls.find(({ name }) => name === 'setFamily')?.args).toEqual([
      {
        name: 'WREN-24',
        boost: false,
        points: [
          { name: 'Q1 D→S', role: 'part', part: 'Q1' },
          { name: '5V standby', role: 'standby' },
        ],
        parts: [
          { designator: 'Q1', nodes: ['drain', 'source'] },
          { designator: 'Q2', nodes: ['drain', 'source'] },
        ],
      },
    ]);
    await expect.element(page.getByRole('link', { name: 'bands proposed for WREN-24' })).toHaveAttribute('href', '#/bands/proposals?family=WREN-24'); // prettier-ignore
  });

  test('copies a known family under another name, and never over it', async () => {
    const { client } = await showFamily();
    await page.getByLabelText('name', { exact: true }).fill('HERON-48');
    await page.getByLabelText('copy of').selectOptions('HERON-48');
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('HERON-48 is there already');
    await page.getByLabelText('name', { exact: true }).fill('HERON-49');
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect.element(page.getByText('HERON-49 has 1 test point and 1 part now.')).toBeVisible();
    expect(client.calls.filter(({ name }) => name === 'setFamily').map(({ args }) => args)).toEqual([[{ ...known, name: 'HERON-49' }]]); // prettier-ignore
  });

  test('takes rows away', async () => {
    const { client } = await showFamily('HERON-48');
    await page.getByRole('button', { name: 'Remove Q1', exact: true }).click();
    await expect.element(page.getByText('Q1 has no nodes yet', { exact: false })).toBeVisible();
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'setFamily')?.args)
      .toEqual([{ ...known, parts: [] }]);
  });
});

describe('a family that is changed elsewhere', () => {
  const boostless = { ...known, boost: false };

  /** The family editor over families that a test changes as another tab would. */
  async function showStored() {
    let stored: Family = known;
    const opened = await showFamily('HERON-48', {
      bands: () => ({ families: [stored], bands: [], without: [] }),
      setFamily: ([family]) => ((stored = family), { readings: 0, repairs: 0, families: 1, bands: 0 }),
      openKept: () => ({ keeps: true, found: true, faults: [], misses: false, canUndoSwitch: false }),
      historyOf: () => [
        {
          at: 0,
          who: 'B. Dunlin',
          does: 'changed',
          changes: [{ part: 'families', old: known, new: boostless }],
          more: 0,
        },
      ],
    });
    return {
      ...opened,
      change: async (family: Family) => {
        stored = family;
        await opened.session.ask('undo', []);
      },
    };
  }

  test('is shown as it is stored while nobody types', async () => {
    const { change } = await showStored();
    await change(boostless);
    await expect.element(page.getByRole('checkbox')).not.toBeChecked();
  });

  test('keeps what was typed, says who changed what, and saves nothing before one is chosen', async () => {
    const { change, client, place } = await showStored();
    await page.getByLabelText('Rail of Q1 D→S').fill('drain');
    await change(boostless);
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent(/HERON-48 was changed while you typed by B\. Dunlin.*boost stage yes → no/);
    await expect.element(page.getByLabelText('Rail of Q1 D→S')).toHaveValue('drain');
    await expect.element(page.getByRole('button', { name: 'Save the family' })).toBeDisabled();
    expect(await violations(place)).toEqual([]);
    await page.getByRole('button', { name: 'Go on with what I typed' }).click();
    await page.getByRole('button', { name: 'Save the family' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'setFamily')?.args)
      .toEqual([{ ...known, points: [{ ...known.points[0], rail: 'drain' }] }]);
    await expect.element(page.getByRole('checkbox')).toBeChecked();
    await expect.element(page.getByText('changed while you typed')).not.toBeInTheDocument();
  });

  test('is shown as it is now where that is chosen', async () => {
    const { change } = await showStored();
    await page.getByLabelText('Rail of Q1 D→S').fill('drain');
    await change(boostless);
    await page.getByRole('button', { name: 'Show it as it is now' }).click();
    await expect.element(page.getByLabelText('Rail of Q1 D→S')).toHaveValue('');
    await expect.element(page.getByRole('checkbox')).not.toBeChecked();
  });
});

describe('points and parts with readings', () => {
  const counted: FakeAnswers = { facet: () => [{ value: 'Q1 D→S', count: 34 }] };

  test('go only once that was asked', async () => {
    const { client, place } = await showFamily('HERON-48', counted);
    await page.getByRole('button', { name: 'Remove Q1 D→S' }).click();
    await page.getByRole('button', { name: 'Remove Q1', exact: true }).click();
    await page.getByRole('button', { name: 'Save the family' }).click();
    const asked = page.getByRole('region', { name: 'Save HERON-48 without what has readings?' });
    await expect
      .element(asked)
      .toHaveTextContent(/The point Q1 D→S, with 34 readings\..*The part Q1, with 34 readings\./);
    expect(await violations(place)).toEqual([]);
    await expect.poll(focusedName).toBe('Back to the family');
    expect(client.calls.some(({ name }) => name === 'setFamily')).toBe(false);
    await page.getByRole('button', { name: 'Save without them' }).click();
    await expect
      .poll(() => client.calls.find(({ name }) => name === 'setFamily')?.args)
      .toEqual([{ ...known, points: [], parts: [] }]);
  });

  test('stay where the technician goes back', async () => {
    const { client } = await showFamily('HERON-48', counted);
    await page.getByRole('button', { name: 'Remove Q1 D→S' }).click();
    await page.getByRole('button', { name: 'Save the family' }).click();
    await page.getByRole('button', { name: 'Back to the family' }).click();
    await expect.element(page.getByText('without what has readings')).not.toBeInTheDocument();
    expect(client.calls.some(({ name }) => name === 'setFamily')).toBe(false);
  });
});

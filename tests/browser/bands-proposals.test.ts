import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/bands-place.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { drawn, show, violations } from './app-page.ts';
import { check, openBands } from './bands-bench.ts';

async function showProposals(own: FakeAnswers = {}, about: Partial<typeof check> = { family: 'HERON-48' }) {
  const opened = await openBands(own);
  const place = await show('bt-bands-place', { session: opened.session, route: parseRoute(bandsHash('proposals', about)) }); // prettier-ignore
  await drawn(place);
  return { place, ...opened };
}

const row = (name: string) => page.getByRole('row', { name: new RegExp(name) }).first();

describe('proposals', () => {
  test('renders', async () => {
    await showProposals();
    await expect.element(page.getByRole('heading', { level: 1, name: 'What should the points of HERON-48 read?' })).toBeVisible(); // prettier-ignore
    await expect.element(row('24V main')).toHaveTextContent(/23\.4 to 24\.9 V\s*9− 1 screened\s*normal tolerance interval; may be normal, p = 0\.42/); // prettier-ignore
    await expect.element(row('24V main')).toHaveTextContent(/0 of 100 to 28 %\s*1 of 29\.0 to 91 %|0 of 10/);
    await expect.element(page.getByText('2.91 standard deviations off')).toBeVisible();
    await expect.element(page.getByText('at most 2.48')).toBeVisible();
    await expect.element(page.getByText('modified z 4.2')).toBeVisible();
    await expect.element(page.getByText('M2 reads 1.6\u00a0% high: its 4 readings were put right before the band was learned.', { exact: false })).toBeVisible(); // prettier-ignore
    await expect.element(page.getByText('two revisions of the board may be mixed together', { exact: false })).toBeVisible(); // prettier-ignore
  });

  test('is accessible', async () => {
    const { place } = await showProposals();
    expect(await violations(place)).toEqual([]);
  });

  test('are learned again with a screened reading that is kept', async () => {
    const { client } = await showProposals();
    await page.getByRole('checkbox', { name: 'keep' }).click();
    await expect.element(row('24V main')).toHaveTextContent(/23\.2 to 24\.9 V/);
    expect(client.calls.findLast(({ name }) => name === 'proposeFamily')?.args[1]).toMatchObject({ keptRows: [9] });
  });

  test('are learned again for another content, confidence and side', async () => {
    const { client } = await showProposals();
    await page.getByLabelText('A band holds').selectOptions('0.99');
    await page.getByLabelText(/^with/).selectOptions('0.9');
    await page.getByLabelText(/^on/).selectOptions('at least');
    await expect
      .poll(() => client.calls.findLast(({ name }) => name === 'proposeFamily')?.args[1])
      .toMatchObject({ content: 0.99, confidence: 0.9, sides: 'at least' });
    await page.getByLabelText('Sides of 24V main, live, DC volts').selectOptions('at most');
    await expect
      .poll(() => client.calls.findLast(({ name }) => name === 'propose')?.args)
      .toMatchObject([check, { content: 0.99, sides: 'at most' }]);
  });

  test('are learned again by another rule of known-good boards', async () => {
    const { client } = await showProposals();
    await page.getByLabelText(/^Known good: returned working/).selectOptions('for 30 days or more');
    await page.getByLabelText('also new parts measured beside').click();
    await expect
      .poll(() => client.calls.findLast(({ name }) => name === 'proposeFamily')?.args[1])
      .toMatchObject({ rule: { heldDays: 30, withoutFault: true, newParts: false } });
  });

  test('tell how far learning is, and can be cancelled and begun again', async () => {
    let turn = 0;
    await showProposals({
      proposeFamily: (_, { signal, onProgress }) => {
        turn += 1;
        if (turn > 1) return [];
        onProgress?.({ done: 3, total: 30 });
        return new Promise((_resolve, reject) => {
          signal?.addEventListener('abort', () => {
            reject(new Error('cancelled'));
          });
        });
      },
    });
    await expect.element(page.getByText('Learning from the boards of HERON-48.')).toBeVisible();
    await expect.element(page.getByText('3 of 30 checks')).toBeVisible();
    await page.getByRole('button', { name: 'Cancel' }).click();
    await expect.element(page.getByText('Learning was cancelled, and nothing has changed.')).toBeVisible();
    await page.getByRole('button', { name: 'Learn', exact: true }).click();
    await expect
      .element(page.getByText('By this rule no board of HERON-48 is known to be good', { exact: false }))
      .toBeVisible();
  });

  test('are accepted together where ticked, signed and dated, and taken back', async () => {
    const { client } = await showProposals();
    await page.getByRole('button', { name: 'Accept 0 ticked bands' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('No proposal is ticked');
    // It is warned of and lets a bad board through, so it is no well-founded one.
    await expect.element(page.getByRole('checkbox', { name: 'Tick all well-founded proposals' })).toBeDisabled();
    await page.getByRole('checkbox', { name: /^Tick 24V main/ }).click();
    await page.getByLabelText('set by').fill('Tern');
    await page.getByRole('button', { name: 'Accept 1 ticked band' }).click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('24V main would let boards through that are known to be bad.');
    expect(client.calls.some(({ name }) => name === 'setBands')).toBe(false);
    await page.getByLabelText('why', { exact: true }).fill('that board failed elsewhere');
    await page.getByRole('button', { name: 'Accept 1 ticked band' }).click();
    await expect.element(page.getByText('24V main should read 23.4 to 24.9 V now.')).toBeVisible();
    const [[band], why] = client.calls.find(({ name }) => name === 'setBands')!.args as [[unknown], string];
    expect(why).toBe('that board failed elsewhere');
    expect(band).toMatchObject({ ...check, basis: 'learned', author: 'Tern' });
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.element(page.getByText(/^Taken back/)).toBeVisible();
  });

  test('are accepted one by one', async () => {
    const { client } = await showProposals();
    await page.getByRole('button', { name: 'Accept 24V main, live, DC volts' }).click();
    await page.getByLabelText('why', { exact: true }).fill('that board failed elsewhere');
    await page.getByRole('button', { name: 'Accept 24V main, live, DC volts' }).click();
    await expect.element(page.getByText('24V main should read 23.4 to 24.9 V now.')).toBeVisible();
    expect(client.calls.filter(({ name }) => name === 'setBands')).toHaveLength(1);
  });

  test('say why there is none with few boards, and offer the board’s marking meanwhile', async () => {
    const { client } = await showProposals();
    await expect.element(page.getByText('A band needs readings of at least two good boards, and there is one.')).toBeVisible(); // prettier-ignore
    await expect.element(page.getByLabelText('Nominal of 5V standby, live', { exact: true })).toHaveValue('5\u00a0V');
    await page.getByLabelText('Percent around the nominal of 5V standby, live').fill('');
    await page.getByRole('button', { name: 'Set the marking of 5V standby, live' }).click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('5V standby, live: This band has no percentage yet');
    await page.getByLabelText('Percent around the nominal of 5V standby, live').fill('4');
    await page.getByRole('button', { name: 'Set the marking of 5V standby, live' }).click();
    await expect.element(page.getByText('5V standby should read 5 V ± 4 % now.')).toBeVisible();
    expect(client.calls.find(({ name }) => name === 'setBands')?.args).toMatchObject([
      [{ point: '5V standby', stage: 'live', basis: 'board marking', expects: { nominal: 5, percent: 4 } }],
    ]);
  });

  test('of one check are shown by its address', async () => {
    const { client } = await showProposals({}, check);
    await expect.element(page.getByRole('heading', { level: 1, name: 'What should HERON-48, 24V main, live, DC volts read?' })).toBeVisible(); // prettier-ignore
    expect(client.calls.some(({ name }) => name === 'proposeFamily')).toBe(false);
  });

  test('of a family without good boards say what is missing', async () => {
    await showProposals({ proposeFamily: () => [] });
    await expect
      .element(page.getByText('By this rule no board of HERON-48 is known to be good', { exact: false }))
      .toBeVisible();
  });
});

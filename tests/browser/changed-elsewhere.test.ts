import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { Band } from '../../src/domain/band.ts';
import type { HistoryLine } from '../../src/session/answers.ts';
import '../../src/ui/panels/bands-place.ts';
import '../../src/ui/panels/repair-form.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { lines } from './app-bench.ts';
import { drawn, show, violations } from './app-page.ts';
import { check, openBands, points, present } from './bands-bench.ts';
import { openRepairs } from './repairs-bench.ts';

/** What another tab changed last, as the history tells it. */
const change = (changes: HistoryLine['changes']): FakeAnswers => ({
  historyOf: () => [{ at: 0, who: 'B. Dunlin', does: 'changed', changes, more: 0 }],
});

describe('what is being typed is never replaced in silence', () => {
  test('in the band editor', async () => {
    let band: Band = present;
    const other: Band = { ...present, expects: { kind: 'percent', nominal: 24, percent: 4 } };
    const { session, client } = await openBands({
      ...change([{ part: 'bands', old: present, new: other }]),
      pastPoints: () => points(band),
    });
    const place = await show('bt-bands-place', { session, route: parseRoute(bandsHash('check', check)) });
    await drawn(place);
    await userEvent.fill(page.getByLabelText('± %'), '3');
    band = other;
    await session.ask('undo', []);
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent(/The band of 24V main was changed while you typed by B\. Dunlin.*24.V ± 5.% → 24.V ± 4.%/);
    await expect.element(page.getByLabelText('± %')).toHaveValue('3');
    await expect.element(page.getByRole('button', { name: 'Accept' })).toBeDisabled();
    expect(await violations(place)).toEqual([]);
    await page.getByRole('button', { name: 'Go on with what I typed' }).click();
    await page.getByLabelText('Why is it right that known bad boards pass?').fill('noted');
    await page.getByRole('button', { name: 'Accept' }).click();
    await expect.element(page.getByText('24V main should read 24 V ± 3 % now.')).toBeVisible();
    expect(client.calls.filter(({ name }) => name === 'setBands')).toHaveLength(1);
  });

  test('in the record of a repair', async () => {
    const [{ repair }] = lines as [(typeof lines)[0]];
    const other = { ...repair, complaint: 'burnt smell' };
    const { session } = await openRepairs(change([{ part: 'repairs', old: repair, new: other }]));
    const form = await show('bt-repair-form', { session, repair });
    await userEvent.fill(page.getByLabelText('Replaced parts'), 'Q1 F1 D3');
    form.repair = other;
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent(/T-0131 was changed while you typed by B\. Dunlin.*no standby light → burnt smell/);
    await expect.element(page.getByLabelText('Replaced parts')).toHaveValue('Q1 F1 D3');
    await expect.element(page.getByRole('button', { name: 'Keep', exact: true })).toBeDisabled();
    expect(await violations(form)).toEqual([]);
    await page.getByRole('button', { name: 'Show it as it is now' }).click();
    await expect.element(page.getByLabelText('Replaced parts')).toHaveValue('Q1 F1');
    await expect.element(page.getByLabelText('Complaint')).toHaveValue('burnt smell');
  });

  test('in the profile of a meter', async () => {
    const profile = (percent: number) => ({ name: 'M1', accuracies: [{ mode: 'DC volts' as const, upTo: 60, percent, counts: 2 }] }); // prettier-ignore
    let percent = 0.5;
    const { session } = await openBands({
      ...change([{ part: 'meters', old: profile(0.5), new: profile(0.8) }]),
      meters: () => [profile(percent)],
    });
    const place = await show('bt-bands-place', { session, route: parseRoute(bandsHash('meters')) });
    await drawn(place);
    await page.getByRole('button', { name: 'Edit M1' }).click();
    await userEvent.fill(page.getByLabelText('+ counts, line 1'), '3');
    percent = 0.8;
    await session.ask('undo', []);
    await expect.element(page.getByRole('alert')).toHaveTextContent(/M1 was changed while you typed by B\. Dunlin/);
    await expect.element(page.getByLabelText('+ counts, line 1')).toHaveValue('3');
    await expect.element(page.getByRole('button', { name: 'Save the meter' })).toBeDisabled();
    await page.getByRole('button', { name: 'Show it as it is now' }).click();
    await expect.element(page.getByLabelText('± % of reading, line 1')).toHaveValue('0.8');
  });
});

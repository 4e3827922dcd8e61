import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/bands-place.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { drawn, show, violations } from './app-page.ts';
import { check, openBands, points, present } from './bands-bench.ts';

async function showEditor(own: FakeAnswers = {}, about = check) {
  const opened = await openBands(own);
  const place = await show('bt-bands-place', { session: opened.session, route: parseRoute(bandsHash('check', about)) });
  await drawn(place);
  return { place, ...opened };
}

const WHY = 'Why is it right that known bad boards pass?';
const row = (name: string) => page.getByRole('row', { name: new RegExp(`^${name}`) });
const low = () => page.getByRole('slider', { name: 'Low limit' });
const high = () => page.getByRole('slider', { name: 'High limit' });

describe('the band editor', () => {
  test('renders', async () => {
    await showEditor();
    await expect
      .element(page.getByRole('heading', { level: 1, name: 'HERON-48, 24V main, live, DC volts' }))
      .toBeVisible();
    await expect.element(page.getByText('13 readings: 10 known good, 2 known bad, 1 of which nobody can say.')).toBeVisible(); // prettier-ignore
    await expect.element(low()).toHaveAttribute('aria-valuetext', '22.8\u00a0V');
    await expect.element(high()).toHaveAttribute('aria-valuetext', '25.2\u00a0V');
    await expect.element(row('present')).toHaveTextContent(/24 V ± 5 %\s*0 of 10 \(0 to 28 %\)\s*1 of 2/);
    // Good, bad, unknown: numbers, over range, lowest, median, highest.
    await expect.element(row('known good')).toHaveTextContent(/10\s*0\s*23\.6 V\s*24\.05 V\s*24\.5 V/);
    await expect.element(row('unknown')).toHaveTextContent(/0\s*1/);
  });

  test('is accessible', async () => {
    const { place } = await showEditor();
    expect(await violations(place)).toEqual([]);
  });

  test('moves limits by keys, one last digit or ten, and the counts follow at once', async () => {
    const { client } = await showEditor();
    await page.getByLabelText('should read').selectOptions('between');
    (high().element() as SVGElement).focus();
    await userEvent.keyboard('{ArrowLeft}');
    await expect.element(high()).toHaveAttribute('aria-valuetext', '25.19\u00a0V');
    await userEvent.keyboard('{Shift>}{ArrowLeft>8}{/Shift}');
    await expect.element(high()).toHaveAttribute('aria-valuetext', '24.39\u00a0V');
    await expect.element(row('being set')).toHaveTextContent(/22\.8.* to 24\.39 V\s*2 of 10 \(0 to 28 %\)\s*0 of 2/);
    await expect.element(row('present')).toHaveTextContent(/0 of 10/);
    await expect.element(page.getByLabelText('basis')).toHaveValue('typed in');
    expect(client.calls.some(({ name }) => name === 'setBands')).toBe(false);
  });

  test('moves a limit by the pointer, both of a percent band together', async () => {
    await showEditor();
    const box = high().element().getBoundingClientRect();
    const target = high().element();
    const at = { bubbles: true, pointerId: 1, button: 0, clientY: box.top + 5 };
    (target as SVGElement).setPointerCapture = () => undefined;
    target.dispatchEvent(new PointerEvent('pointerdown', { ...at, clientX: box.left + 12 }));
    target.dispatchEvent(new PointerEvent('pointermove', { ...at, clientX: box.left - 100 }));
    target.dispatchEvent(new PointerEvent('pointerup', { ...at, clientX: box.left - 100 }));
    await expect.poll(() => Number(high().element().getAttribute('aria-valuenow'))).toBeLessThan(25.1);
    const [from, to] = [low(), high()].map((handle) => Number(handle.element().getAttribute('aria-valuenow')));
    expect(24 - from!).toBeCloseTo(to! - 24, 6);
  });

  test('says what is wrong with typed limits, and accepts nothing before it is mended', async () => {
    const { client, place } = await showEditor();
    await page.getByLabelText('should read').selectOptions('between');
    await page.getByRole('textbox', { name: 'low limit' }).fill('25,3');
    await expect.element(page.getByText('The low limit lies above the high limit: swap them.')).toBeVisible();
    await page.getByRole('button', { name: 'Accept' }).click();
    await page.getByRole('textbox', { name: 'low limit' }).fill('twelve');
    await expect.element(page.getByText('“twelve” is no number')).toBeVisible();
    expect(await violations(place)).toEqual([]);
    await page.getByRole('textbox', { name: 'low limit' }).fill('');
    await expect.element(page.getByText('This band has no low limit yet: fill it in.')).toBeVisible();
    await page.getByRole('button', { name: 'Accept' }).click();
    expect(client.calls.some(({ name }) => name === 'setBands')).toBe(false);
  });

  test('accepts a band with its basis, author and day, lists what changed, and takes it back', async () => {
    const { client, place } = await showEditor();
    await page.getByLabelText('± %').fill('2,5');
    await page.getByLabelText('basis').selectOptions('common practice');
    await page.getByLabelText('set by').fill('Tern');
    await page.getByRole('button', { name: 'Accept' }).click();
    await expect
      .element(page.getByRole('alert'))
      .toHaveTextContent('This band lets 1 board through that is known to be bad: write why that is right');
    expect(client.calls.some(({ name }) => name === 'setBands')).toBe(false);
    await page.getByLabelText(WHY).fill('that board failed elsewhere');
    await page.getByRole('button', { name: 'Accept' }).click();
    await expect.element(page.getByText('24V main should read 24 V ± 2.5 % now.')).toBeVisible();
    const [[band]] = client.calls.find(({ name }) => name === 'setBands')!.args as [[unknown]];
    expect(band).toEqual({
      ...present,
      expects: { kind: 'percent', nominal: 24, percent: 2.5 },
      basis: 'common practice',
      author: 'Tern',
      date: expect.stringMatching(/^\d{4}-\d\d-\d\d$/) as unknown,
    });
    await expect.element(page.getByText('3 past readings changed their verdict.')).toBeVisible();
    await expect
      .element(page.getByRole('list', { name: 'Verdicts that changed' }))
      .toHaveTextContent(/pass → .* fail: 2/);
    await expect.element(page.getByRole('link', { name: 'T-0131' })).toHaveAttribute('href', '#/repairs/T-0131');
    await expect
      .element(page.getByRole('table', { name: /What was set here/ }))
      .toHaveTextContent(/24 V ± 2\.5 %.*\(present\).*24 V ± 5 %/s);
    expect(await violations(place)).toEqual([]);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.element(page.getByText(/^Taken back/)).toBeVisible();
    await expect.element(high()).toHaveAttribute('aria-valuetext', '25.2\u00a0V');
    // Who sets bands is remembered.
    await expect.element(page.getByLabelText('set by')).toHaveValue('Tern');
  });

  test('takes the learned band over as a draft', async () => {
    await showEditor();
    await page.getByRole('button', { name: 'Take it over' }).click();
    await expect.element(page.getByRole('textbox', { name: 'low limit' })).toHaveValue('23.4\u00a0V');
    await expect.element(page.getByLabelText('basis')).toHaveValue('learned');
  });

  test('opens at the stage with most readings where the address leaves it open', async () => {
    const { family, point, mode } = check;
    await showEditor({}, { family, point, mode } as typeof check);
    await expect.element(page.getByRole('heading', { level: 1, name: /, live, / })).toBeVisible();
    await expect.element(page.getByRole('link', { name: 'run-in · 4' })).toBeVisible();
  });

  test('sorts and tries past readings anew by another rule of known-good boards, and keeps what was typed', async () => {
    const { client } = await showEditor();
    await page.getByLabelText('should read').selectOptions('between');
    await page.getByLabelText(/^Known good: returned working/).selectOptions('for 90 days or more');
    await page.getByLabelText('also boards without a fault found').click();
    const rule = { heldDays: 90, withoutFault: false, newParts: true };
    await expect.poll(() => client.calls.findLast(({ name }) => name === 'pastPoints')?.args).toEqual([check, rule]);
    await expect.poll(() => client.calls.findLast(({ name }) => name === 'tryBand')?.args[2]).toEqual(rule);
    await expect.poll(() => client.calls.findLast(({ name }) => name === 'propose')?.args[1]).toMatchObject({ rule });
    await expect.element(page.getByLabelText('should read')).toHaveValue('between');
    const kept = client.calls.findLast(({ name }) => name === 'changeSettings')?.args;
    expect(kept).toEqual([{ goodRule: rule }]);
  });

  test('sets a band also where nothing was ever read', async () => {
    const { client } = await showEditor({
      count: () => ({ readings: 0, outOfBand: 0, repairs: 0 }),
      bands: () => ({ families: [], bands: [], without: [] }),
    });
    await expect.element(page.getByText('No past reading of it is on the bench', { exact: false })).toBeVisible();
    await page.getByRole('button', { name: 'Accept' }).click();
    await expect.element(page.getByText('24V main should read 24 V ± 5 % now.')).toBeVisible();
    expect(client.calls.some(({ name }) => name === 'pastPoints' || name === 'tryBand')).toBe(false);
  });

  test('shows what the worker says is wrong', async () => {
    await showEditor({ setBands: () => Promise.reject(new Error('A band needs a family and a test point.')) });
    await page.getByLabelText(WHY).fill('noted');
    await page.getByRole('button', { name: 'Accept' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('A band needs a family and a test point.');
  });

  test('draws more than two thousand readings on a canvas, and none as paths', async () => {
    const { place } = await showEditor({ pastPoints: () => points(present, 200) });
    const strip = place.shadowRoot?.querySelector('bt-band-editor')?.shadowRoot?.querySelector('bt-reading-strip');
    await expect.poll(() => strip?.shadowRoot?.querySelector('canvas')?.width ?? 0).toBeGreaterThan(400);
    expect(strip?.shadowRoot?.querySelectorAll('path.marks')).toHaveLength(0);
    const canvas = strip!.shadowRoot!.querySelector('canvas')!;
    const { data } = canvas.getContext('2d')!.getImageData(0, 0, canvas.width, canvas.height);
    expect(data.some((value) => value > 0)).toBe(true);
  });
});

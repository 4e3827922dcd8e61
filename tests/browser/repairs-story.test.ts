import { describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/panels/repair-story.ts';
import { lines, story } from './app-bench.ts';
import { openRepairs } from './repairs-bench.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';

async function showStory(...session: Parameters<typeof openRepairs>) {
  const opened = await openRepairs(...session);
  return show('bt-repair-story', { session: opened.session, repair: 'T-0131' });
}

describe('<bt-repair-story>', () => {
  test('renders', async () => {
    const place = await showStory();
    expect(textOf(place, 'h1')).toBe('T-0131');
    expect(rowsOf(place, 'table[aria-labelledby=readings]')).toEqual([
      ['as received'],
      ['2026-03-14 09:14', 'F1', 'continuity', 'OLΩ', '', '▲open', 'M2', '24 Ω ± 5 %'],
      ['part out'],
      ['2026-03-14 09:14', 'Q1 D→S', 'resistance', '0.3Ω', '', '▼shorted', 'M2', '24 Ω ± 5 %'],
      ['live'],
      ['2026-03-14 09:14', '24V main', 'DC volts', '25.27V', '', '▲high', 'M2', '24 V ± 5 %'],
      ['2026-03-14 09:14', 'dimming', 'DC volts', '24.02V', '', '·no band', 'M2', ''],
    ]);
  });

  test('is accessible', async () => {
    expect(await violations(await showStory())).toEqual([]);
  });
});

test('the facts of the repair link to its family and its comebacks', async () => {
  const place = await showStory();
  expect(all(place, '.facts div').map((fact) => [...fact.children].map((part) => part.textContent.trim()))).toEqual([
    ['family', 'HERON-48'],
    ['complaint', 'no standby light'],
    ['received', '2026-03-14'],
    ['outcome', 'open'],
    ['replaced', 'Q1, F1'],
    ['came back as', 'T-0140'],
  ]);
  const links = all(place, '.facts a').map((link) => link.getAttribute('href'));
  expect(links).toEqual(['#/families/HERON-48', '#/repairs/T-0140']);
});

test('a comeback links to the repair before it', async () => {
  const line = { ...lines[2]!, repair: { ...lines[2]!.repair, id: 'T-0131' } };
  const place = await showStory({ repair: () => ({ ...story, line, comebacks: [] }) });
  expect(all(place, '.facts a').map((link) => link.getAttribute('href'))).toContain('#/repairs/T-0009');
});

describe('what it takes to decide', () => {
  test('is told above all, with the drawing of the parts', async () => {
    const place = await showStory();
    expect(
      all(place, 'bt-repair-go-back, bt-masking-figure, bt-repair-discharge').map(({ localName }) => localName),
    ).toEqual(['bt-repair-go-back', 'bt-masking-figure', 'bt-repair-discharge']);
  });

  test('findings on the board stand before data that cannot be as it is', async () => {
    const place = await showStory();
    expect(all(place, 'section[aria-labelledby=findings] li').map(({ textContent }) => textContent.trim())).toEqual([
      story.findings[0],
      'As found: M1 and M2 read at the same moment, once.',
    ]);
  });

  test('an overruled line is asked for with its reason, and the answer is asked for anew', async () => {
    const { session, client } = await openRepairs({ overruleLine: () => session.state.summary! });
    const place = await show('bt-repair-story', { session, repair: 'T-0131' });
    await page.getByRole('button', { name: 'Overrule: The fuse rule holds.' }).click();
    await userEvent.keyboard('seen whole by eye{Enter}');
    await drawn(place);
    const asked = client.calls.map(({ name, args }) => [name, ...args]).filter(([name]) => name === 'overruleLine');
    expect(asked).toEqual([['overruleLine', 'T-0131', 'fuse', 'seen whole by eye']]);
    expect(client.calls.filter(({ name }) => name === 'decision')).toHaveLength(2);
  });

  test('a refusal is told', async () => {
    const { session } = await openRepairs({
      overruleLine: () => {
        throw new Error('No repair T-0131 is on the bench.');
      },
    });
    await show('bt-repair-story', { session, repair: 'T-0131' });
    await page.getByRole('button', { name: 'Take back: The meters rule holds.' }).click();
    await expect.element(page.getByRole('alert')).toHaveTextContent('No repair T-0131 is on the bench.');
  });
});

describe('readings side by side', () => {
  test('show the ratio to the new part with no digit finer than was measured', async () => {
    const place = await showStory();
    expect(rowsOf(place, 'table[aria-labelledby=beside]')).toEqual([
      ['Q1 D→S', 'resistance', 'not measured', '0.3 Ω ▼shorted', '1.250 MΩ ▼shorted', '2 × 10⁻⁷'],
    ]);
  });
});

test('is shown as its sheet, or with its record to correct, as the address asks', async () => {
  const place = await showStory();
  place.view = 'edit';
  await expect.element(page.getByRole('form', { name: 'Record of T-0131' })).toBeVisible();
  place.view = 'sheet';
  await expect.element(page.getByText('Repair sheet')).toBeVisible();
  expect(all(place, 'bt-repair-go-back')).toEqual([]);
});

test('what is proved of a part stands apart from whether it was replaced', async () => {
  const place = await showStory();
  expect(rowsOf(place, 'table[aria-labelledby=parts]')).toEqual([
    ['F1', 'good', 'replaced', 'measured good out of circuit'],
    ['Q1', 'failed, shorted', 'replaced', 'measured bad out of circuit'],
    ['D3', 'suspected', '', 'reads shorted in circuit; Q1 across the same nodes not cleared'],
  ]);
});

test('parts that are good and were left alone are told in one sentence', async () => {
  const place = await showStory();
  expect(textOf(place, 'section[aria-labelledby=parts] > p:not(.quiet)')).toBe('✓ Measured good: C1 and R1.');
});

test('every reading with a band has its tape', async () => {
  const place = await showStory();
  expect(all(place, 'td svg.tape')).toHaveLength(4);
  expect(all(place, 'td svg.tape .limit').length).toBeGreaterThan(3);
});

test('numbers follow the decimal mark', async () => {
  const { session } = await openRepairs();
  const place = await show('bt-repair-story', { session, repair: 'T-0131' });
  session.writeNumbersWith(',');
  await drawn(place);
  expect(rowsOf(place, 'table[aria-labelledby=readings]')[5]?.[3]).toBe('25,27V');
});

test('a repair that is not on the bench is said to be unknown', async () => {
  const { session } = await openRepairs();
  const place = await show('bt-repair-story', { session, repair: 'T-9999' });
  await expect.element(page.getByText(/No repair of this name is on the bench/)).toBeVisible();
  expect(await violations(place)).toEqual([]);
});

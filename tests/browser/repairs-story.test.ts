import { describe, expect, test } from 'vitest';
import { page } from 'vitest/browser';
import '../../src/ui/panels/repair-story.ts';
import { lines, openSession, story } from './app-bench.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';

async function showStory(...session: Parameters<typeof openSession>) {
  const opened = await openSession(...session);
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

describe('whether it may go back', () => {
  test.each([
    [0, 0, 'No live reading was taken after the last work on it, so nothing shows that it works.'],
    [5, 0, '✓ 5 live readings after the last work on it, and none is out of band.'],
    [5, 1, '▲ 1 of 5 live readings after the last work on it is out of band.'],
  ])('is told from %i live readings with %i out of band', async (liveReadings, liveOutOfBand, text) => {
    const line = { ...story.line, liveReadings, liveOutOfBand };
    const place = await showStory({ repair: () => ({ ...story, line }) });
    expect(textOf(place, 'section[aria-labelledby=ready] p')).toBe(text);
  });

  test('is told with the findings on the board as a whole', async () => {
    const place = await showStory();
    expect(textOf(place, 'section[aria-labelledby=ready] li')).toBe(story.findings[0]);
  });
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
  expect(textOf(place, 'section[aria-labelledby=parts] > p:last-child')).toBe('✓ Measured good: C1 and R1.');
});

test('every reading with a band has its tape', async () => {
  const place = await showStory();
  expect(all(place, 'td svg.tape')).toHaveLength(4);
  expect(all(place, 'td svg.tape .limit').length).toBeGreaterThan(3);
});

test('numbers follow the decimal mark', async () => {
  const { session } = await openSession();
  const place = await show('bt-repair-story', { session, repair: 'T-0131' });
  session.writeNumbersWith(',');
  await drawn(place);
  expect(rowsOf(place, 'table[aria-labelledby=readings]')[5]?.[3]).toBe('25,27V');
});

test('a repair that is not on the bench is said to be unknown', async () => {
  const { session } = await openSession();
  const place = await show('bt-repair-story', { session, repair: 'T-9999' });
  await expect.element(page.getByText(/No repair of this name is on the bench/)).toBeVisible();
  expect(await violations(place)).toEqual([]);
});

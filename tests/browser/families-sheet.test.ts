import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { loadSample } from '../../src/session/sample.ts';
import type { Session } from '../../src/session/session.ts';
import { CAUTIONS } from '../../src/ui/cautions.ts';
import '../../src/ui/panels/sheet-family.ts';
import '../../src/ui/panels/sheet-kit.ts';
import type { BenchClient } from '../../src/worker/client.ts';
import { rowsOf, show, textOf, violations } from './app-page.ts';
import { benchWith, NO_NUMBER } from './families-bench.ts';
import { eventually } from '../support/eventually.ts';

let session: Session;
let client: BenchClient;

beforeAll(async () => {
  ({ session, client } = await benchWith(await loadSample()));
});

afterAll(() => {
  client.close();
});

afterEach(() => {
  document.body.replaceChildren();
});

async function showSheet(tag: 'bt-sheet-family' | 'bt-sheet-kit', family: string, query = ''): Promise<Element> {
  const sheet = await show(tag, { session, family, query });
  await eventually(() => {
    expect(sheet.shadowRoot?.querySelector('p[role=status]')).toBeNull();
  });
  return sheet;
}

function said(sheet: Element): string {
  return sheet.shadowRoot?.textContent.replaceAll(/\s+/g, ' ') ?? '';
}

describe.each(['bt-sheet-family', 'bt-sheet-kit'] as const)('<%s>', (tag) => {
  test('renders', async () => {
    const sheet = await showSheet(tag, 'HERON-48');
    expect(textOf(sheet, 'h1')).toContain('HERON-48');
    expect(rowsOf(sheet, 'table').length).toBeGreaterThan(10);
    expect(said(sheet)).not.toMatch(NO_NUMBER);
  });

  test('is accessible', async () => {
    expect(await violations(await showSheet(tag, 'HERON-48'))).toEqual([]);
  });

  test('has every caution, and defers to local codes and licensed practice', async () => {
    const text = said(await showSheet(tag, 'HERON-48'));
    for (const caution of CAUTIONS) expect(text).toContain(caution);
    expect(text).toContain('Local electrical codes and licensed practice come before anything on this sheet.');
  });

  test('says what it cannot tell of a family with too few repairs, and of one that nobody knows', async () => {
    expect(said(await showSheet(tag, 'SISKIN-40'))).toMatch(/too few|No part is proved failed|needed a part/);
    expect(said(await showSheet(tag, 'WREN-19'))).toContain('No board of a family WREN-19 is known');
  });
});

test('the kit’s list counts for each part the repairs that needed it, and what to stock', async () => {
  const sheet = await showSheet('bt-sheet-kit', 'HERON-48', 'kit=50');
  const rows = rowsOf(sheet, 'table');
  expect(rows.every((row) => /^☐ [A-Z]+\d+$/.test(row[0]!) && row.slice(1).every((count) => /^\d+$/.test(count)))).toBe(true); // prettier-ignore
  expect(said(sheet)).toContain('covers at least 50 % of the repairs that needed a part');
  expect(said(sheet)).toContain('Needed now and then, and not in it:');
});

test('the family’s sheet says of which repairs it is', async () => {
  const sheet = await showSheet('bt-sheet-family', 'HERON-48', 'complaint=no+standby+light&from=2026-02-01');
  expect(said(sheet)).toMatch(/From \d+ of 48 repairs: those from 2026-02-01 and under “no standby light”\./);
});

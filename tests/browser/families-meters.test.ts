import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { MetersOverview } from '../../src/session/answers.ts';
import { loadSample } from '../../src/session/sample.ts';
import type { Session } from '../../src/session/session.ts';
import '../../src/ui/panels/families-meters.ts';
import type { BenchClient } from '../../src/worker/client.ts';
import { openSession } from './app-bench.ts';
import { rowsOf, show, violations } from './app-page.ts';
import { allText, benchWith, figuresDrawn, NO_NUMBER } from './families-bench.ts';

let session: Session;
let client: BenchClient;

beforeAll(async () => {
  ({ session, client } = await benchWith(await loadSample()));
});

afterAll(() => {
  client.close();
});

describe('<bt-families-meters>', () => {
  test('renders', async () => {
    const meters = await show('bt-families-meters', { session });
    const [frame] = await figuresDrawn(meters);
    expect(rowsOf(frame!, 'table').map(([meter]) => meter)).toEqual(['B1', 'M1', 'M2', 'M2']);
  });

  test('is accessible', async () => {
    const meters = await show('bt-families-meters', { session });
    await figuresDrawn(meters);
    expect(await violations(meters)).toEqual([]);
  });

  test('names the meter that reads high, since when, and what that may have turned', async () => {
    const meters = await show('bt-families-meters', { session });
    await figuresDrawn(meters);
    // The scenario has M2 read 1.6 % high from the middle of February on.
    expect(allText(meters).replaceAll(/\s+/g, ' ')).toMatch(/M2 reads 1\.\d\d % too high, since about 2026-02-1\d/);
    const links = [...meters.shadowRoot!.querySelectorAll('p a')].map((link) => link.getAttribute('href'));
    expect(links.some((href) => href?.startsWith('#/readings?meter=M2&stage=live&mode=DC+volts'))).toBe(true);
  });

  const nothing: MetersOverview = { periods: [], test: undefined, onlyDifference: true, tooFew: [] };

  test('says where there is too little to say', async () => {
    const { session: bare } = await openSession({
      metersOverview: () => ({ ...nothing, tooFew: [{ meter: '', repairs: 3 }] }),
    });
    const meters = await show('bt-families-meters', { session: bare });
    const [frame] = await figuresDrawn(meters);
    expect(frame?.instead).toBe('No meter has live voltages of ten repairs or more: too few to say.');
    expect(allText(meters)).toContain('Too few repairs to say: a meter that is not named with 3 repairs.');
    expect(allText(meters)).not.toMatch(NO_NUMBER);
  });

  test('says that with two meters only their difference is known', async () => {
    const period = { since: 0, until: 1, repairs: 12, turned: 0, turnedIn: [] };
    const { session: two } = await openSession({
      metersOverview: () => ({
        ...nothing,
        periods: [
          { ...period, meter: 'M1', percent: -0.5, low: -0.7, high: -0.3 },
          { ...period, meter: 'M2', percent: 0.5, low: 0.3, high: 0.7 },
        ],
      }),
    });
    const meters = await show('bt-families-meters', { session: two });
    await figuresDrawn(meters);
    expect(allText(meters)).toContain('only the difference between them is known');
    expect(allText(meters).replaceAll(/\s+/g, ' ')).toContain('M1 reads 0.50 % too low');
  });
});

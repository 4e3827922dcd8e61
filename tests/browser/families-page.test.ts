import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import { userEvent } from 'vitest/browser';
import { loadSample } from '../../src/session/sample.ts';
import { Session } from '../../src/session/session.ts';
import type { FamilyPageView } from '../../src/ui/panels/families-page.ts';
import '../../src/ui/panels/families-page.ts';
import type { BenchClient } from '../../src/worker/client.ts';
import type { WorkProgress } from '../../src/worker/contract/progress.ts';
import { all, drawn, rowsOf, show, textOf, violations } from './app-page.ts';
import { allText, benchWith, figure, figuresDrawn, NO_NUMBER, tableOf, within } from './families-bench.ts';
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
  location.hash = '';
});

async function showFamily(family: string, query = '', of = session): Promise<FamilyPageView> {
  location.hash = `#/families/${family}${query === '' ? '' : `?${query}`}`;
  const page = await show('bt-family-page', { session: of, family, query });
  await eventually(() => {
    expect(textOf(page, 'p')).not.toContain('Counting');
  });
  await drawn(page);
  return page;
}

/** The query that the address has come to ask for. */
function asked(): string {
  return decodeURIComponent(location.hash.split('?')[1] ?? '');
}

describe('<bt-family-page>', () => {
  test('renders', async () => {
    const page = await showFamily('HERON-48');
    const figures = await figuresDrawn(page);
    expect(figures.map(({ question }) => question)).toEqual([
      'Which parts fail in HERON-48?',
      'What to probe first?',
      'A part reads short in circuit: is it the one?',
      'What fails together?',
      'Which sets of parts fail as one?',
      'Which part fails under which complaint?',
      'What does “no standby light” point to?',
      'Is Q1 getting worse in HERON-48?',
      'Do repairs hold?',
      'What belongs in a parts kit?',
      'How many of each to stock?',
      'Does it pay?',
      'What stands out in HERON-48 against other families?',
      'What do boards under power read at each point?',
    ]);
    expect(textOf(page, '[role=status]')).toBe('All 48 repairs.');
  });

  test('is accessible', async () => {
    expect(await violations(await showFamily('HERON-48'))).toEqual([]);
    expect(await violations(await showFamily('SISKIN-40'))).toEqual([]);
  });

  test('counts in its table what the bars show, and says proved failed of a fuse too', async () => {
    const figures = await figuresDrawn(await showFamily('HERON-48'));
    const parts = figure(figures, 'Which parts fail');
    expect(String(parts.sentence)).toContain('proved failed: bad out of circuit, or open in circuit');
    const [first] = rowsOf(parts, 'table');
    expect(first?.slice(0, 4)).toEqual(['Q1', '17', '13', '4']);
    expect(within(parts.querySelector('bt-failure-bars')!, 'a.mark')[0]?.getAttribute('aria-label')).toBe(
      'Q1: 17 + 0.9 inferred · replaced 16',
    );
  });

  test('leads from every mark to readings or repairs, and from bars, cells, weeks, kits and comebacks to the repairs they count', async () => {
    const page = await showFamily('HERON-48');
    await figuresDrawn(page);
    const marks = within(page, '.mark');
    expect(marks.length).toBeGreaterThan(100);
    for (const mark of marks)
      expect(mark.getAttribute('href'), mark.ariaLabel ?? '').toMatch(/^#\/(readings|repairs)\?/);
    const charts = ['bt-failure-bars', 'bt-matrix-chart', 'bt-control-chart', 'bt-steps-chart'];
    const counting = charts.flatMap((chart) => within(page, chart));
    expect(counting).toHaveLength(5);
    for (const chart of counting) {
      (within(chart, '.mark')[0] as SVGElement).focus();
      await eventually(() => {
        expect(within(chart, '.readout a').at(-1)?.getAttribute('href')).toMatch(/^#\/repairs\?family=HERON-48/);
      });
    }
    const pairs = within(page, 'bt-matrix-chart')[0]!;
    for (const cell of within(pairs, '.mark').filter(({ ariaLabel }) => ariaLabel?.includes(' and ')))
      expect(cell.getAttribute('href'), 'readings of two parts are of repairs with either').toMatch(/^#\/repairs\?/);
    const kit = within(page, 'bt-curve-chart').at(-1)!;
    expect(within(kit, '.mark')[0]?.getAttribute('href')).toMatch(/^#\/repairs\?family=HERON-48&beyond-kit=/);
  });

  test('leads from a question at its head to its figure', async () => {
    const page = await showFamily('HERON-48');
    const figures = await figuresDrawn(page);
    all(page, '.questions button')
      .find((button) => button.textContent === 'do repairs hold')
      ?.click();
    await drawn(page);
    const held = figure(figures, 'Do repairs hold');
    expect(held.shadowRoot?.activeElement?.id).toBe('question');
  });
});

describe('a long count', () => {
  test('leaves its figures as they are while another question is counted, and links to what they count', async () => {
    let letGo = (): void => undefined;
    const wait = new Promise<void>((resolve) => (letGo = resolve));
    const slow: BenchClient = {
      call: async (name, args, options) => {
        const [query] = args as readonly [{ readonly complaint?: string }?];
        if (name === 'familyPage' && query?.complaint !== undefined) await wait;
        return client.call(name, args, options);
      },
      close: () => undefined,
    };
    const page = await showFamily('HERON-48', '', new Session(slow, () => Promise.resolve([])));
    const leads = async (): Promise<string | null | undefined> => {
      const bars = figure(await figuresDrawn(page), 'Which parts fail').querySelector('bt-failure-bars')!;
      return within(bars, 'a.mark')[0]?.getAttribute('href');
    };
    const before = await leads();
    page.query = 'complaint=no standby light';
    await page.updateComplete;
    expect(await leads()).toBe(before);
    letGo();
    await eventually(async () => {
      expect(textOf(page, '[role=status]')).toContain('of 48 repairs fit');
      expect(await leads()).not.toBe(before);
    });
  });

  test('tells how far it is, and can be stopped and begun again', async () => {
    let isStopped = false;
    const stuck: BenchClient = {
      call: (name, args, options) => {
        if (name !== 'familyPage' || isStopped) return client.call(name, args, options);
        (options?.onProgress as (progress: WorkProgress) => void)({ done: 9, total: 18 });
        return new Promise((_, reject) => {
          options?.signal?.addEventListener('abort', () => {
            isStopped = true;
            reject(new Error('aborted'));
          });
        });
      },
      close: () => undefined,
    };
    const slow = new Session(stuck, () => Promise.resolve([]));
    const page = await show('bt-family-page', { session: slow, family: 'HERON-48' });
    await eventually(() => {
      expect((all(page, 'progress')[0] as HTMLProgressElement | undefined)?.value).toBe(0.5);
    });
    expect(await violations(page)).toEqual([]);
    all(page, '.counting button')[0]?.click();
    await eventually(() => {
      expect(textOf(page, '[role=alert]')).toBe('This was stopped before its end.');
    });
    all(page, 'p button')[0]?.click();
    await figuresDrawn(page);
  });
});

test('prices and the fee are kept for the bench, one after the other, and a link may give others', async () => {
  const { session: own, client: ownClient } = await benchWith(await loadSample());
  const page = await showFamily('HERON-48', 'price.Q1=7&fee=30', own);
  const figures = await figuresDrawn(page);
  const [first, second] = [...all(page, '.prices input')] as HTMLInputElement[];
  for (const [field, price] of [
    [first!, '2'],
    [second!, '3'],
  ] as const) {
    // prettier-ignore
    field.value = price;
    field.dispatchEvent(new Event('change'));
  }
  const fee = figure(figures, 'Does it pay').querySelector('input')!;
  expect(fee.value).toBe('30');
  fee.value = '45';
  fee.dispatchEvent(new Event('change'));
  await eventually(async () => {
    const { prices, fee: kept } = await own.ask('settings', []);
    expect([prices.map(({ price }) => price), kept]).toEqual([[2, 3], 45]);
  });
  expect(asked()).not.toContain('fee=');
  ownClient.close();
});

describe('what the address asks for', () => {
  test('narrows the repairs, and is said', async () => {
    const page = await showFamily('HERON-48', 'complaint=no+standby+light');
    expect(textOf(page, '[role=status]')).toContain('11 of 48 repairs fit.');
    all(page, '[role=status] button')[0]?.click();
    expect(location.hash).toBe('#/families/HERON-48');
  });

  test('leaves the repairs of one bench, in the figures and in what they lead to', async () => {
    const page = await showFamily('HERON-48', 'bench=door');
    expect(textOf(page, '[role=status]')).toMatch(/^\d+ of 48 repairs fit\./);
    const figures = await figuresDrawn(page);
    expect(figure(figures, 'What do boards under power').sentence).not.toContain('48');
    const bar = within(figure(figures, 'Which parts fail').querySelector('bt-failure-bars')!, 'a.mark')[0];
    expect(bar?.getAttribute('href')).toMatch(/&repair=T-/);
    expect(within(figure(figures, 'Which parts fail'), 'td a')[0]?.getAttribute('href')).toContain('bench=door');
  });

  test('is written by each choice, beside what was asked before', async () => {
    const page = await showFamily('HERON-48', 'meter=M1');
    const [complaint] = all(page, '.filters select');
    await userEvent.selectOptions(complaint!, 'burnt smell');
    expect(asked()).toBe('complaint=burnt+smell&meter=M1');
  });

  test('says what is known of a board on the bench, and narrows what to probe', async () => {
    const page = await showFamily('HERON-48');
    const before = rowsOf(figure(await figuresDrawn(page), 'What to probe'), 'table').map(([name]) => name);
    all(page, '.boxes input')
      .find((box) => box.parentElement?.textContent.trim() === 'Q1')
      ?.click();
    expect(asked()).toBe('good=Q1');
    page.query = asked();
    await eventually(async () => {
      const after = rowsOf(figure(await figuresDrawn(page), 'What to probe'), 'table').map(([name]) => name);
      expect(after.some((name) => name?.includes('Q1'))).toBe(false);
      expect(before.some((name) => name?.includes('Q1'))).toBe(true);
    });
  });

  test('chooses the part that is followed over time without asking the worker again', async () => {
    const page = await showFamily('HERON-48');
    page.query = 'part=R1';
    await page.updateComplete;
    expect(figure(await figuresDrawn(page), 'Is R1 getting worse')).toBeDefined();
  });

  test('a number out of its limits is not taken', async () => {
    const page = await showFamily('HERON-48');
    const share = all(page, 'input[type=number]')[0] as HTMLInputElement;
    await userEvent.fill(share, '140');
    share.blur();
    expect(asked()).toBe('');
    await userEvent.fill(share, '50');
    share.blur();
    expect(asked()).toBe('kit=50');
  });

  test('that nothing fits is said in every figure of failures', async () => {
    const figures = await figuresDrawn(await showFamily('HERON-48', 'from=2030-01-01'));
    const told = figures.filter(({ instead }) => instead !== undefined);
    expect(told).toHaveLength(figures.length);
    expect(figure(figures, 'Which parts fail').instead).toBe('No repair fits these filters: too few to say.');
  });

  test('too few repairs are compared with no other family, in numbers neither', async () => {
    const figures = await figuresDrawn(await showFamily('HERON-48', 'to=2026-01-07'));
    const frame = figure(figures, 'What stands out');
    expect(frame.instead).toContain('too few repairs to say, it takes 10.');
    expect(frame.table).toBeUndefined();
  });

  test('is kept where no complaint of the family is meant', async () => {
    const page = await showFamily('HERON-48', 'complaint=hums');
    expect((all(page, '.filters select')[0] as HTMLSelectElement).value).toBe('hums');
    expect(textOf(page, '[role=status]')).toContain('0 of 48 repairs fit.');
  });
});

describe('bad input is explained, and no number that is none is shown', () => {
  const READINGS = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
  const REPAIRS = 'repair,family,complaint,received,returned,outcome,parts replaced,comeback of';
  const READING = '2026-04-01T09:00:00,T-0501,TEAL-20,12V main,live,DC volts,board,12.02,V,M1';

  async function showBad(
    repairs: readonly string[],
    readings: readonly string[],
    query = '',
    more: readonly File[] = [],
  ) {
    const files = [
      ...more,
      ...(repairs.length === 0 ? [] : [tableOf('repairs.csv', REPAIRS, repairs)]),
      ...(readings.length === 0 ? [] : [tableOf('log.csv', READINGS, readings)]),
    ];
    const bad = await benchWith(files);
    const page = await showFamily('TEAL-20', query, bad.session);
    const figures = await figuresDrawn(page);
    bad.client.close();
    const text = allText(page);
    expect(text).not.toMatch(NO_NUMBER);
    return { figures, text };
  }

  test('a family with one repair and no reading', async () => {
    const { figures } = await showBad(['T-0501,TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,'], []);
    expect(figure(figures, 'Which parts fail').instead).toBe('1 repair: too few repairs to say, it takes 10.');
    expect(figure(figures, 'Do repairs hold').instead).toContain('None of 1 returned board came back');
    expect(figure(figures, 'What do boards under power').instead).toContain('No board of this family');
  });

  test('readings without a repair on record', async () => {
    const { text, figures } = await showBad([], [READING]);
    expect(text).toContain('Left out: 1 known from readings alone.');
    expect(figure(figures, 'Do repairs hold').instead).toContain('too few');
  });

  test('a part that the family does not know', async () => {
    const { figures } = await showBad(
      ['T-0501,TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q99,'],
      [READING],
    );
    expect(rowsOf(figure(figures, 'Which parts fail'), 'table')[0]?.[0]).toBe('Q99');
  });

  test('a part that read both bad and good out of circuit, with both readings in its repair', async () => {
    const repairs = Array.from({ length: 12 }, (_, at) => `T-09${at + 10},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`); // prettier-ignore
    const readings = repairs.map((_, at) => `2026-04-01T09:05:00,T-09${at + 10},TEAL-20,Q1 D→S,part out,resistance,board,0.2,Ω,M1`); // prettier-ignore
    const good = '2026-04-01T09:07:00,T-0910,TEAL-20,Q1 D→S,part out,resistance,board,900,kΩ,M1';
    const bands = tableOf('bands.csv', 'family,point,stage,mode,kind,low,unit,basis', ['TEAL-20,Q1 D→S,part out,resistance,at least,1,kΩ,typed in']); // prettier-ignore
    const { figures } = await showBad(repairs, [...readings, good], '', [bands]);
    const parts = figure(figures, 'Which parts fail');
    expect(rowsOf(parts, 'table')[0]?.slice(0, 2)).toEqual(['Q1', '11']);
    const words = [...parts.children].find((child) => child.textContent.includes('both bad'));
    expect(words?.textContent.replaceAll(/\s+/g, ' ')).toContain('One part read both bad and good out of circuit');
    expect(words?.querySelector('a')?.getAttribute('href')).toBe('#/repairs/T-0910');
  });

  test('repairs of which no part was measured say nothing of how seldom it fails', async () => {
    const repairs = Array.from({ length: 12 }, (_, at) => `T-09${at + 10},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`); // prettier-ignore
    const other = Array.from({ length: 12 }, (_, at) => `T-08${at + 10},WREN-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`); // prettier-ignore
    const shorted = (repair: string, family: string) =>
      `2026-04-01T09:05:00,${repair},${family},Q1 D→S,part out,resistance,board,0.2,Ω,M1`;
    const readings = [
      ...repairs.slice(0, 2).map((line) => shorted(line.slice(0, 6), 'TEAL-20')),
      ...other.map((line) => shorted(line.slice(0, 6), 'WREN-20')),
    ];
    const bands = tableOf('bands.csv', 'family,point,stage,mode,kind,low,unit,basis', [
      'TEAL-20,Q1 D→S,part out,resistance,at least,1,kΩ,typed in',
      'WREN-20,Q1 D→S,part out,resistance,at least,1,kΩ,typed in',
    ]);
    const { figures } = await showBad([...repairs, ...other], readings, '', [bands]);
    expect(figure(figures, 'Which parts fail').sentence).toContain('10 repairs without a reading of any part tell nothing of what failed.'); // prettier-ignore
    const others = figure(figures, 'What stands out');
    expect(others.sentence).toContain('2 repairs here and 12 of all other families');
    expect(others.sentence).toContain('None stands out from chance');
  });

  test('boards that went back on a day that nobody wrote down', async () => {
    const { text } = await showBad(
      Array.from({ length: 12 }, (_, at) => `T-08${at + 10},TEAL-20,flicker,2026-04-01,,returned working,Q1,`),
      [],
    );
    expect(text).toContain('12 returned as working on a day that is not known');
  });

  test('faults that no check as received shows', async () => {
    const repairs = Array.from({ length: 12 }, (_, at) => `T-09${at + 10},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`); // prettier-ignore
    const readings = repairs.flatMap((_, at) => [
      `2026-04-01T09:00:00,T-09${at + 10},TEAL-20,Z99 A→K,as received,diode,board,0.52,V,M1`,
      `2026-04-01T09:05:00,T-09${at + 10},TEAL-20,Q1 D→S,part out,resistance,board,0.2,Ω,M1`,
    ]);
    const bands = tableOf('bands.csv', 'family,point,stage,mode,kind,low,unit,basis', ['TEAL-20,Q1 D→S,part out,resistance,at least,1,kΩ,typed in']); // prettier-ignore
    const { figures } = await showBad(repairs, readings, '', [bands]);
    expect(rowsOf(figure(figures, 'Which parts fail'), 'table')[0]?.slice(0, 2)).toEqual(['Q1', '12']);
    expect(figure(figures, 'What to probe first').instead).toContain('no timed check as received shows any of them');
  });

  test('a comeback before its return', async () => {
    const { text } = await showBad(
      [
        'T-0501,TEAL-20,flicker,2026-04-01,2026-04-20,returned working,,',
        'T-0502,TEAL-20,flicker,2026-04-10,2026-04-21,returned working,,T-0501',
      ],
      [],
    );
    expect(text).toContain('1 whose comeback is dated before the return, which cannot be');
  });

  test('boards of which none came back, and some of which all did on the day of their return', async () => {
    const rows = Array.from({ length: 12 }, (_, at) => `T-06${at + 10},TEAL-20,flicker,2026-04-01,2026-04-02,returned working,Q1,`); // prettier-ignore
    const censored = await showBad(rows, []);
    expect(figure(censored.figures, 'Do repairs hold').instead).toContain('None of 12 returned boards came back');
    const back = Array.from(
      { length: 12 },
      (_, at) => `T-07${at + 10},TEAL-20,flicker,2026-04-02,,open,,T-06${at + 10}`,
    );
    const all12 = await showBad([...rows, ...back], []);
    const table = rowsOf(figure(all12.figures, 'Do repairs hold'), 'table');
    expect(table[0]?.slice(0, 4)).toEqual(['TEAL-20', '12', '12', '100\u00a0%'.replace('\u00a0', ' ')]);
  });

  test('a family that nothing names', async () => {
    const page = await showFamily('HERRON-48');
    expect(page.shadowRoot?.textContent).toContain('No board of a family HERRON-48 is known');
  });
});

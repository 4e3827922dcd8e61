import { Session } from '../../src/session/session.ts';
import '../../src/ui/panels/families-page.ts';
import type { FamilyPageView } from '../../src/ui/panels/families-page.ts';
import { familyQuery, readFamilyAsked } from '../../src/ui/panels/families-query.ts';
import { createBenchClient } from '../../src/worker/client.ts';
import { BANDED_FAMILIES, BANDS } from '../support/bench/scenario.ts';
import { simulateBench } from '../support/bench/simulate.ts';
import { longForm } from '../support/bench/write-logs.ts';
import { bandsTable, repairsTable } from '../support/bench/write-tables.ts';

/** What was asked of a family's page, how many repairs it left, and the milliseconds of each round. */
export interface PageTimes {
  readonly asked: string;
  readonly repairs: number;
  /** From the question to the answer, there and back. */
  readonly worker: readonly number[];
  /** From the filter to the frame that shows it. */
  readonly drawn: readonly number[];
}

export interface PatternsTimes {
  readonly readings: number;
  /** From nothing examined yet to the first frame with figures. */
  readonly first: number;
  readonly filters: readonly PageTimes[];
}

const FAMILY = 'HERON-48';
const FILTERS = ['', 'complaint=no standby light', 'meter=M2', 'bench=window', 'from=2026-06-01'];
/** What each filter comes after. */
const OTHERS = 'bench=door';
const ROUNDS = 5;

/** Times a family's page over a real worker that holds so many invented repairs of all families. */
export async function measurePatterns(repairs: number): Promise<PatternsTimes> {
  const bench = simulateBench({ seed: 7, repairs, perDay: 40 });
  const files = [
    new File([bandsTable(BANDED_FAMILIES, BANDS)], 'bands.csv'),
    new File([repairsTable(bench.repairs)], 'repairs.csv'),
    new File([longForm(bench.readings)], 'shifts.csv'),
  ];
  const client = createBenchClient();
  const session = new Session(client, () => Promise.resolve(files));
  await session.openSample();
  const page = document.createElement('bt-family-page');
  page.session = session;
  page.family = FAMILY;
  const start = performance.now();
  document.body.append(page);
  await shown(page, '');
  const first = performance.now() - start;
  const filters: PageTimes[] = [];
  for (const asked of FILTERS) {
    const [worker, drawn]: [number[], number[]] = [[], []];
    for (let round = 0; round < ROUNDS; round += 1) {
      const before = statusOf(page);
      page.query = OTHERS;
      const others = await shown(page, before);
      const began = performance.now();
      page.query = asked;
      await shown(page, others);
      drawn.push(performance.now() - began);
      const question = performance.now();
      await client.call('familyPage', [familyQuery(FAMILY, readFamilyAsked(asked))]);
      worker.push(performance.now() - question);
    }
    filters.push({ asked, repairs: Number(/[\d,]+/.exec(statusOf(page))?.[0].replace(',', '')), worker, drawn });
  }
  page.remove();
  client.close();
  return { readings: bench.readings.length, first, filters };
}

function statusOf(page: FamilyPageView): string {
  return page.shadowRoot?.querySelector('.filters ~ [role=status]')?.textContent.trim() ?? '';
}

/** Waits until a frame has been laid out and painted that says something else than before of how many repairs fit. */
async function shown(page: FamilyPageView, before: string): Promise<string> {
  const { port1, port2 } = new MessageChannel();
  for (;;) {
    await new Promise((resolve) => {
      // A message sent before a frame is painted comes after it.
      port1.onmessage = resolve;
      requestAnimationFrame(() => {
        port2.postMessage(undefined);
      });
    });
    const status = statusOf(page);
    if (status !== '' && status !== before) return status;
  }
}

import type {
  BandsOverview,
  BenchSummary,
  ReadingRow,
  RepairLine,
  RepairStory,
  ShiftOverview,
} from '../../src/session/answers.ts';
import { Session } from '../../src/session/session.ts';
import { FAIL, HIGH, LOW, NO_BAND, PASS } from '../../src/domain/verdict.ts';
import { fakeClient, type FakeAnswers, type FakeClient } from '../session/fake-client.ts';
import { planOf, previewOf } from '../session/plan-of.ts';

/** A small bench with one of everything that the places show. */

const summary: BenchSummary = { readings: 4012, repairs: 152, families: 3, bands: 96 };

function reading(changes: Partial<ReadingRow> = {}): ReadingRow {
  return {
    row: 0,
    time: Date.UTC(2026, 2, 14, 9, 14, 2),
    repair: 'T-0131',
    family: 'HERON-48',
    point: '24V main',
    stage: 'live',
    mode: 'DC volts',
    specimen: 'board',
    state: 'value',
    value: 24.02,
    prefix: 0,
    decimals: 2,
    meter: 'M2',
    origin: { file: 'shift.csv', line: 12 },
    verdict: PASS,
    limits: { low: 22.8, high: 25.2 },
    band: {
      family: 'HERON-48',
      point: '24V main',
      mode: 'DC volts',
      expects: { kind: 'percent', nominal: 24, percent: 5 },
      basis: 'board marking',
    },
    uncertainty: NaN,
    ...changes,
  };
}

/** The reading as it is where no band is set for it. */
function unbanded(row: ReadingRow): ReadingRow {
  const bare = { ...row };
  Reflect.deleteProperty(bare, 'band');
  Reflect.deleteProperty(bare, 'limits');
  return bare;
}

export function repairLine(id: string, changes: Partial<RepairLine['repair']> = {}, outOfBand = 0): RepairLine {
  return {
    repair: {
      id,
      family: 'HERON-48',
      complaint: 'no standby light',
      received: Date.UTC(2026, 2, 12),
      returned: NaN,
      outcome: 'open',
      replaced: [],
      ...changes,
    },
    readings: 12,
    outOfBand,
    listed: true,
  };
}

export const lines: readonly RepairLine[] = [
  repairLine('T-0131', { replaced: ['Q1', 'F1'], received: Date.UTC(2026, 2, 14) }, 3),
  repairLine('T-0009', { family: 'PLOVER-32', complaint: 'flicker', outcome: 'returned working' }),
  repairLine('T-0140', { family: 'CURLEW-60', complaint: 'burnt smell', comebackOf: 'T-0009' }, 1),
];

export const story: RepairStory = {
  line: lines[0]!,
  readings: [
    reading({
      row: 1,
      point: 'F1',
      stage: 'as received',
      mode: 'continuity',
      state: 'over-range',
      value: NaN,
      verdict: FAIL + HIGH,
      word: 'open',
      limits: { low: -Infinity, high: 1 },
    }),
    reading({
      row: 2,
      point: 'Q1 D→S',
      stage: 'part out',
      mode: 'resistance',
      value: 0.3,
      decimals: 1,
      verdict: FAIL + LOW,
      word: 'shorted',
      limits: { low: 1e5, high: Infinity },
    }),
    reading({ row: 3, value: 25.27, verdict: FAIL + HIGH }),
    unbanded(reading({ row: 4, point: 'dimming', verdict: NO_BAND })),
  ],
  parts: [
    { part: 'C1', finding: 'good', word: 'good', reason: 'measured good in circuit', replaced: false },
    { part: 'R1', finding: 'good', word: 'good', reason: 'measured good in circuit', replaced: false },
    { part: 'F1', finding: 'good', word: 'good', reason: 'measured good out of circuit', replaced: true },
    { part: 'Q1', finding: 'failed', word: 'shorted', reason: 'measured bad out of circuit', replaced: true },
    {
      part: 'D3',
      finding: 'suspected',
      reason: 'reads shorted in circuit; Q1 across the same nodes not cleared',
      replaced: false,
    },
  ],
  findings: ['The boost stage is not running: the bulk capacitor reads rectified mains.'],
  comebacks: ['T-0140'],
};

export const bands: BandsOverview = {
  families: ['HERON-48', 'PLOVER-32'].map((name) => ({ name, boost: name === 'HERON-48', points: [], parts: [] })),
  bands: [
    { band: reading().band!, readings: 140, outOfBand: 18 },
    {
      band: {
        family: 'PLOVER-32',
        point: 'bulk',
        mode: 'DC volts',
        stage: 'live',
        expects: { kind: 'rectified mains', below: 8, above: 3 },
        basis: 'common practice',
        author: 'Tern Lane',
        date: '2025-11-03',
      },
      readings: 52,
      outOfBand: 0,
    },
  ],
  without: [{ family: 'HERON-48', point: 'dimming', stage: 'live', mode: 'DC volts', readings: 31 }],
};

export const shift: ShiftOverview = {
  imports: [
    {
      file: 'shift.csv',
      hash: '0'.repeat(64),
      shape: 'readings',
      encoding: 'utf-8',
      separator: ';',
      rows: 1245,
      taken: 1241,
      setAside: 3,
      known: 1,
      noData: 2,
      notices: ['The times have no seconds.'],
    },
  ],
  setAside: [
    {
      file: 'shift.csv',
      line: 1204,
      column: 'reading',
      content: '12,x V',
      reason: 'This is no number: write it as 12.3 V.',
    },
    {
      file: 'shift.csv',
      line: 1240,
      column: '',
      content: '<b>total</b>;12',
      reason: 'The row has 2 cells where the header has 9.',
    },
    { file: 'shift.csv', line: 1241, column: 'time', content: '2026-02-30', reason: 'There is no such day.' },
  ],
};

/** A session over the small bench; some answers may be the test's own. */
export async function openSession(
  own: FakeAnswers = {},
  files: readonly File[] = [new File([''], 'repairs.csv')],
): Promise<{ session: Session; client: FakeClient }> {
  const client = fakeClient({
    summary: () => summary,
    clear: () => ({ readings: 0, repairs: 0, families: 0, bands: 0 }),
    bringIn: () => ({ records: [], setAside: [], refused: [] }),
    planFile: () => planOf(),
    previewFile: ([, plan]) => previewOf(plan),
    unknownNames: () => [],
    meters: () => [],
    shift: () => shift,
    repairs: () => lines,
    goBackAnswers: () => [],
    repair: ([id]) => (id === 'T-0131' ? story : undefined),
    bands: () => bands,
    families: () => [],
    count: () => ({ readings: 0, outOfBand: 0, repairs: 0 }),
    window: () => [],
    facet: () => [],
    placeOf: () => -1,
    summarise: () => ({ rows: 0, outOfBand: 0, overRange: 0 }),
    ...own,
  });
  const session = new Session(client, () => Promise.resolve(files));
  await session.openSample();
  return { session, client };
}

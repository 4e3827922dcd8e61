import { LogBuilder } from '../../src/columns/log-builder.ts';
import { columnsOf, type ReadingLog } from '../../src/columns/reading-log.ts';
import type { Band } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import type { FilePlan } from '../../src/domain/file-plan.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { encodeNames } from '../../src/store/columns-codec.ts';
import { crc32 } from '../../src/store/crc-32.ts';
import type { BenchState, KeptImport, NewImport } from '../../src/store/kept.ts';
import { hexOf, sha256 } from '../../src/store/sha-256.ts';
import { Random } from '../support/bench/random.ts';

const POINTS = ['5V standby', '12V main', '24V main', 'backlight', 'bulk'];
/** Codes of live in STAGES, DC volts in MODES, value and over-range in STATES. */
const LIVE = 3;
const DC_VOLTS = 5;

/** A seeded log of one shift: readings a few seconds apart, some without a time, some over-range. */
export function seededLog(seed: number, rows: number, file: string): ReadingLog {
  const random = new Random(seed);
  const builder = new LogBuilder(undefined, Math.max(4, rows));
  const { names } = builder;
  const meters = ['M1', 'M2', 'B1'].map((meter) => names.meters.intern(meter));
  const family = names.families.intern('HERON-48');
  const checks = POINTS.map((point) => names.checks.intern(family, names.points.intern(point), LIVE, DC_VOLTS));
  const files = names.files.intern(file);
  let time = Date.UTC(2026, 2, 1 + (seed % 28), 8);
  for (let row = 0; row < rows; row += 1) {
    time += 1000 * random.whole(1, 40);
    const over = random.chance(0.05);
    builder.push(
      random.chance(0.01) ? NaN : time,
      over ? NaN : Number(random.normal(12, 0.3).toFixed(2)),
      random.chance(0.1) ? 3 : 0,
      2,
      over ? 1 : 0,
      random.chance(0.05) ? 1 : 0,
      names.repairs.intern(`T-${String(1 + Math.floor(row / 12)).padStart(4, '0')}`),
      checks[row % checks.length]!,
      meters[row % meters.length]!,
      files,
      row + 2,
    );
  }
  return builder.finish();
}

/** An import with a seeded log and bytes of its own. */
export async function importOf(seed: number, rows: number, file = `shift-${seed}.csv`): Promise<NewImport> {
  const bytes = new TextEncoder().encode(`time,repair,reading\n${`2026-03-14,T-0001,${seed}\n`.repeat(rows + 1)}`);
  return {
    record: {
      file,
      hash: hexOf(await sha256(bytes)),
      shape: 'readings',
      encoding: 'utf-8',
      separator: ',',
      rows: rows + 1,
      taken: rows,
      setAside: 1,
      known: 0,
      noData: 1,
      notices: ['One row was set aside.'],
    },
    log: seededLog(seed, rows, file),
    setAside: [{ file, line: rows + 2, column: 'reading', content: 'O.L?', reason: 'This is no reading: “O.L?”.' }],
    plan,
    bytes,
  };
}

export const plan: FilePlan = {
  encoding: 'utf-8',
  separator: ',',
  shape: 'readings',
  headerLine: 1,
  unitsLine: false,
  columns: [
    { header: 'time', field: 'time', reason: 'named time', doubtful: false },
    { header: '__proto__', field: 'reading', reason: 'holds SI units', doubtful: true, mode: 'DC volts', prefix: 0 },
  ],
  decimalMark: '.',
  dateOrder: 'year-month-day',
  given: { repair: 'T-0131', stage: 'live', start: Date.UTC(2026, 2, 14) },
  givenRanges: [{ from: 2, to: 40, given: { repair: 'T-0132' } }],
  questions: [{ about: 'decimal mark', text: 'Is 1,250 a thousand and more?' }],
};

const family: Family = {
  name: 'HERON-48',
  boost: true,
  points: [{ name: '12V main', role: 'main', rail: '12 V' }, { name: 'Q1', role: 'part', part: 'Q1' }], // prettier-ignore
  parts: [{ designator: 'Q1', nodes: ['drain', 'source'] }],
};

export function bandOf(point: string, percent: number): Band {
  return {
    family: 'HERON-48',
    point,
    mode: 'DC volts',
    stage: 'live',
    expects: { kind: 'percent', nominal: 12, percent },
    basis: 'typed in',
    date: '2026-03-14',
  };
}

export function repairOf(id: string): Repair {
  return {
    id,
    family: 'HERON-48',
    complaint: 'no standby light',
    received: Date.UTC(2026, 2, 13),
    returned: NaN,
    outcome: 'open',
    replaced: ['Q1', 'F1'],
  };
}

export const state: BenchState = {
  families: [family],
  bands: [bandOf('12V main', 5), bandOf('24V main', 4)],
  earlierBands: [bandOf('12V main', 10)],
  repairs: [repairOf('T-0001'), repairOf('__proto__')],
  meters: [{ name: 'M1', accuracies: [{ mode: 'DC volts', upTo: 60, percent: 0.5, counts: 3, resolution: 0.01 }] }],
  maps: [{ header: '["time","__proto__"]', plan }],
  names: [{ kind: 'point', name: '__proto__', family: 'HERON-48', meaning: '12V main' }],
  overrules: [{ repair: 'T-0001', rule: 'fuse', reason: 'measured at the customer' }],
  edits: [
    {
      when: Date.UTC(2026, 2, 15),
      changes: [
        { row: { file: 'shift.csv', line: 7, nth: 0 }, field: 'reading', old: { value: 12.9 }, new: { value: 12.1 } },
        { row: { file: '__proto__', line: 8, nth: 1 }, old: { meter: 'M1' } },
      ],
    },
  ],
  settings: [
    {
      prices: [{ family: 'HERON-48', part: '__proto__', price: 1.25 }],
      fee: 40,
      technician: 'A. Tern',
      goodRule: { heldDays: 90, withoutFault: false, newParts: true },
    },
  ],
  views: [{ name: '__proto__', address: '#/readings?sort=-margin&group=family' }],
};

/** Everything in an import that must come back, in a form that compares quickly: each column as its kind, length and CRC-32. */
export function contentOf({ record, setAside, plan: kept, log }: KeptImport): unknown {
  const columns = log && columnsOf(log).map((column) => [column.constructor.name, column.length, sumOf(column)]);
  return { record, setAside, plan: kept, names: log && encodeNames(log.names), columns };
}

/** CRC-32 of the bytes of a column. */
export function sumOf({ buffer, byteOffset, byteLength }: ArrayBufferView): number {
  return crc32(new Uint8Array(buffer, byteOffset, byteLength));
}

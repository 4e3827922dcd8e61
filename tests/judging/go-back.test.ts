import { describe, expect, test } from 'vitest';
import type { Band } from '../../src/domain/band.ts';
import type { Family } from '../../src/domain/family.ts';
import type { Meter } from '../../src/domain/meter.ts';
import type { Repair } from '../../src/domain/repair.ts';
import { CONDITIONAL_PASS, FAIL, HIGH, LOW, NO_BAND, NOT_JUDGED, PASS } from '../../src/domain/verdict.ts';
import {
  goBackLines,
  type GoBackCase,
  type GoBackRule,
  type JudgedReading,
  type MeterFault,
} from '../../src/judging/go-back.ts';
import { reading } from '../support/readings.ts';

const family: Family = {
  name: 'HERON-48',
  boost: true,
  points: [
    { name: 'F1', role: 'part', part: 'F1' },
    { name: 'Q1 D→S', role: 'part', part: 'Q1' },
    { name: 'Q2 D→S', role: 'part', part: 'Q2' },
    { name: 'bulk', role: 'bulk' },
    { name: '12V main', role: 'main' },
  ],
  parts: [
    { designator: 'F1', nodes: ['line', 'fused line'] },
    { designator: 'Q1', nodes: ['drain', 'source'] },
    { designator: 'Q2', nodes: ['source', 'drain'] },
  ],
};
const band = (point: string, changes: Partial<Band> = {}): Band => ({
  family: 'HERON-48',
  point,
  mode: 'DC volts',
  expects: { kind: 'percent', nominal: 12, percent: 5 },
  basis: 'board marking',
  ...changes,
});
const repair: Repair = {
  id: 'T-0131',
  family: 'HERON-48',
  complaint: 'no standby light',
  received: NaN,
  returned: NaN,
  outcome: 'open',
  replaced: ['Q1', 'F1'],
};

type Given = Partial<JudgedReading>;
const ohms = { mode: 'resistance', verdict: PASS, word: 'good', decimals: 1 } as const;
const short = { ...ohms, value: 0.6, verdict: FAIL | LOW, word: 'shorted' } as const;
const q1 = (stage: JudgedReading['stage'], given: Given = {}): Given => ({ point: 'Q1 D→S', stage, ...ohms, value: 259, ...given }); // prettier-ignore
const q2 = (stage: JudgedReading['stage'], given: Given = {}): Given => ({ ...q1(stage, given), point: 'Q2 D→S' });
const fuse = (given: Given = {}): Given => ({ point: 'F1', stage: 'refitted', ...ohms, mode: 'continuity', state: 'beep', value: NaN, ...given }); // prettier-ignore
const bulk = (given: Given = {}): Given => ({ point: 'bulk', value: 391.2, decimals: 1, ...given });
const main = (given: Given = {}): Given => ({ value: 12.04, ...given });
/** One repair done as it should be: a shorted Q1 was replaced with its fuse, read again, and powered. */
const WHOLE: readonly Given[] = [
  q1('as received', short),
  q2('as received', short),
  q1('part out', short),
  fuse(),
  q1('refitted'),
  bulk(),
  main(),
];

function lines(readings: readonly Given[], changes: Partial<GoBackCase> = {}) {
  return goBackLines({
    repair,
    family,
    bands: [band('bulk'), band('12V main')],
    readings: readings.map((given, row) => ({ ...reading({}), verdict: PASS, ...given, row })),
    meters: [],
    meterFaults: [],
    mark: '.',
    ...changes,
  });
}

function line(rule: GoBackRule, readings: readonly Given[], changes: Partial<GoBackCase> = {}) {
  const { standing, sentence, rows } = lines(readings, changes).find((one) => one.rule === rule)!;
  return [standing, sentence, rows];
}

test('a repair done in order holds every line, and what it does not speak of does not apply', () => {
  expect(lines(WHOLE).map(({ rule, standing }) => [rule, standing])).toEqual([
    ['shorts', 'holds'],
    ['fuse', 'holds'],
    ['live', 'holds'],
    ['run-in', 'does not apply'],
    ['discharge', 'does not apply'],
    ['meters', 'holds'],
  ]);
});

test('a repair without readings holds no line that asks for one', () => {
  expect(lines([]).filter(({ standing }) => standing === 'holds')).toEqual([]);
});

describe('no short is left', () => {
  test('where a refitted point still reads shorted or leaky, it does not hold, with what was read', () => {
    expect(line('shorts', [...WHOLE.slice(0, 4), q1('refitted', short)])).toEqual([
      'does not hold',
      'Q2 D→S read 0.6\u00a0Ω (shorted) and Q1 D→S read 0.6\u00a0Ω (shorted), and nothing later clears it.',
      [1, 4],
    ]);
    expect(line('shorts', [q1('refitted', { ...short, word: 'leaky', value: 640 })])[0]).toBe('does not hold');
  });

  test('a short that was seen as received is cleared by a good reading across the same nodes only', () => {
    const elsewhere = { ...family, parts: [family.parts[0]!, family.parts[1]!, { designator: 'Q2', nodes: ['a', 'b'] as const }] }; // prettier-ignore
    expect(line('shorts', WHOLE)[0]).toBe('holds');
    expect(line('shorts', WHOLE, { family: elsewhere })).toEqual([
      'does not hold',
      'Q2 D→S read 0.6\u00a0Ω (shorted), and nothing later clears it.',
      [1],
    ]);
  });

  test('a replaced or lifted part that was not read once fitted is not measured', () => {
    expect(line('shorts', [fuse(), bulk(), main()])).toEqual([
      'not measured',
      'Q1 came out or was replaced, and was not read again once fitted.',
      [],
    ]);
    expect(line('shorts', [q1('refitted'), q1('part out'), q2('part out')])[1]).toMatch(/^Q1 and Q2 came out/);
  });

  test('a new part measured beside the board says nothing of the board', () => {
    expect(line('shorts', [q1('refitted', { specimen: 'new part' })])[0]).toBe('not measured');
  });

  test('a reading without a band lacks a band', () => {
    const bare = { point: 'Q1 D→S', stage: 'refitted', mode: 'resistance', value: 0.6, verdict: NO_BAND } as const;
    expect(line('shorts', [bare, fuse()])).toEqual([
      'no band',
      'Q1 D→S was read once refitted, with no band to judge by.',
      [0],
    ]);
  });
});

describe('the fuse', () => {
  test('that was replaced counts once refitted', () => {
    expect(line('fuse', [fuse({ stage: 'as received' })])).toEqual(['not measured', 'F1 was not measured once replaced.', []]); // prettier-ignore
    expect(line('fuse', [fuse()])).toEqual(['holds', 'F1 read beep (good).', [0]]);
  });

  test('that was left alone counts as received', () => {
    expect(line('fuse', [fuse({ stage: 'as received' })], { repair: { ...repair, replaced: [] } })[0]).toBe('holds');
  });

  test('that reads open does not hold', () => {
    const open = fuse({ state: 'no beep', verdict: FAIL | HIGH, word: 'open' });
    expect(line('fuse', [fuse(), open])).toEqual(['does not hold', 'F1 read no beep (open).', [1]]);
  });

  // A continuity tester beeps through a good fuse: common practice, no source.
  test('without a band is told by its beep', () => {
    const bare = (state: JudgedReading['state']): Given => {
      const given = { ...reading({ point: 'F1', stage: 'refitted', mode: 'continuity', state, value: NaN }), verdict: NO_BAND }; // prettier-ignore
      return given;
    };
    expect(line('fuse', [bare('beep')])[0]).toBe('holds');
    expect(line('fuse', [bare('no beep')])[0]).toBe('does not hold');
    expect(line('fuse', [bare('blank')])[0]).toBe('not measured');
  });

  test('of a family that declares none does not apply, of an unknown family is not measured', () => {
    expect(line('fuse', [], { family: { ...family, parts: family.parts.slice(1) } })[0]).toBe('does not apply');
    expect(goBackLines({ repair, bands: [], readings: [], meters: [], meterFaults: [], mark: '.' })[1]?.standing).toBe(
      'not measured',
    );
  });
});

describe('live points', () => {
  test('that were measured before the last part was fitted only are not measured', () => {
    expect(line('live', [bulk(), main(), q1('refitted')])).toEqual([
      'not measured',
      'bulk and 12V main were not measured after the last part was fitted.',
      [],
    ]);
  });

  test('are named one by one where missing', () => {
    expect(line('live', [q1('refitted'), main()])[1]).toBe('bulk was not measured after the last part was fitted.');
  });

  test('out of band do not hold', () => {
    expect(line('live', [...WHOLE, main({ value: 12.91, verdict: FAIL | HIGH })])).toEqual([
      'does not hold',
      '12V main read 12.91\u00a0V, out of band.',
      [7],
    ]);
  });

  test('hold by their last reading, and an earlier one out of band is told', () => {
    const earlier = main({ value: 11.2, verdict: FAIL | LOW });
    expect(line('live', [bulk(), earlier, main({ verdict: CONDITIONAL_PASS })], { repair: { ...repair, replaced: [] } })).toEqual([
      'holds',
      '2 live points read after the last part was fitted, all in band. Before that, 12V main read 11.20\u00a0V, out of band.',
      [0, 2],
    ]); // prettier-ignore
  });

  test('whose answer no band can judge are not measured', () => {
    expect(line('live', [bulk({ verdict: NOT_JUDGED }), main()])[0]).toBe('not measured');
  });

  test('are asked for by bands of the live stage and of every stage, in powered modes', () => {
    const bands = [
      band('bulk', { stage: 'run-in' }),
      band('Q1 D→S', { mode: 'resistance' }),
      band('12V main', { stage: 'live' }),
    ];
    const noBulk = { ...family, points: family.points.filter(({ role }) => role !== 'bulk') };
    expect(line('live', [main()], { bands, family: noBulk })[0]).toBe('holds');
    expect(line('live', [main()], { bands: bands.slice(0, 2), family: noBulk })[0]).toBe('no band');
  });

  test('without a band are counted and named, and the line does not stand on those that have one', () => {
    const bands = [band('12V main')];
    expect(line('live', [main()], { bands }).slice(0, 2)).toEqual(['no band', '1 live point without a band: bulk.']);
    const unknown = main({ point: '24V main', verdict: NO_BAND });
    expect(line('live', [bulk(), main(), unknown])[1]).toBe('1 live point without a band: 24V main.');
    expect(line('live', [main()], { bands: [] })[1]).toBe('2 live points without a band: 12V main and bulk.');
  });

  test('a discharge reading of the bulk capacitor is no work on the board', () => {
    expect(line('live', [...WHOLE, bulk({ stage: 'refitted', value: 3 })])[0]).toBe('holds');
  });
});

describe('the run-in', () => {
  const entry = (given: Given = {}): Given => main({ stage: 'run-in', ...given });

  test('holds where every entry is in band, with its blanks counted', () => {
    const blank = entry({ state: 'blank', value: NaN, verdict: NOT_JUDGED });
    expect(line('run-in', [...WHOLE, entry(), entry(), blank]).slice(0, 2)).toEqual([
      'holds',
      '2 entries of 12V main in band; 1 is blank.',
    ]);
  });

  test('does not hold with one excursion', () => {
    const out = entry({ value: 11.02, verdict: FAIL | LOW });
    expect(line('run-in', [...WHOLE, entry(), out])).toEqual([
      'does not hold',
      '1 of 2 entries out of band: 12V main read 11.02\u00a0V.',
      [8],
    ]);
  });

  test('counts entries that are left out for being alike', () => {
    expect(line('run-in', [...WHOLE, entry({ alike: 999_999 })])[1]).toBe('1,000,000 entries of 12V main in band.');
  });

  test('without a band lacks one', () => {
    expect(line('run-in', [...WHOLE, entry({ verdict: NO_BAND })])[0]).toBe('no band');
  });
});

// Energy source class 1 ends at 60 V d.c.: IEC 62368-1, table 4, seen second-hand (a reference to the standard, not its text).
describe('the bulk capacitor', () => {
  const off = (value: number): Given => bulk({ stage: 'part out', value });

  test('measured below 60 V between power and unpowered work holds', () => {
    expect(line('discharge', [bulk(), off(59.9), q1('part out')])).toEqual([
      'holds',
      'bulk read 59.9\u00a0V before unpowered work went on.',
      [1],
    ]);
    expect(line('discharge', [bulk(), bulk({ value: 12.1 }), q1('part out')])[0]).toBe('holds');
  });

  test('still charged to 60 V or more does not hold', () => {
    expect(line('discharge', [bulk(), off(60), q1('part out')])[0]).toBe('does not hold');
    expect(line('discharge', [bulk(), off(-318), q1('part out')])[0]).toBe('does not hold');
    expect(line('discharge', [bulk(), off(318), off(4), q1('part out')])[0]).toBe('holds');
  });

  test('not measured between is told for each time', () => {
    expect(line('discharge', [bulk(), q1('part out'), bulk(), q1('refitted')])).toEqual([
      'not measured',
      'Unpowered work followed power 2 times with no reading of the bulk capacitor below 60 V d.c. between.',
      [],
    ]);
  });

  test('measured only after the work does not count', () => {
    expect(line('discharge', [bulk(), q1('part out'), off(3)])[0]).toBe('not measured');
  });
});

describe('meters', () => {
  const DAY = 86_400_000;
  const day = reading({}).time - (reading({}).time % DAY);
  const off = (meter: string, given: Partial<MeterFault> = {}): readonly MeterFault[] => [
    { meter, since: -Infinity, until: Infinity, sentence: `${meter} reads 1.6 % high.`, ...given },
  ];
  const due = (name: string, calibrationDue?: number): Meter => ({ name, accuracies: [], ...(calibrationDue !== undefined && { calibrationDue }) }); // prettier-ignore

  test('known to be off do not hold, with what is known', () => {
    expect(line('meters', WHOLE, { meterFaults: off('M1') })).toEqual([
      'does not hold',
      'M1 reads 1.6 % high.',
      [5, 6],
    ]);
  });

  test('are judged at the time of the live readings, not before and not after', () => {
    expect(line('meters', WHOLE, { meterFaults: off('M1', { until: day - 1 }) })[0]).toBe('holds');
    expect(line('meters', WHOLE, { meterFaults: off('M1', { since: day + DAY }) })[0]).toBe('holds');
    expect(line('meters', WHOLE, { meterFaults: off('M1', { since: day, until: day + DAY }) })[0]).toBe(
      'does not hold',
    );
  });

  test('that took only unpowered readings are not held against it', () => {
    const readings = WHOLE.map((given) => ({ ...given, meter: given.stage === undefined ? 'M1' : 'M2' }));
    expect(line('meters', readings, { meterFaults: off('M2'), meters: [due('M1', day)] }).slice(0, 2)).toEqual([
      'holds',
      'Nothing is known against M1.',
    ]);
  });

  test('are overdue from the day after the one on which they fall due, and named', () => {
    expect(line('meters', WHOLE, { meters: [due('M1', day)] })[0]).toBe('holds');
    const [standing, sentence, rows] = line('meters', WHOLE, { meters: [due('M1', day - DAY), due('M2', 0)] });
    const fell = new Date(day - DAY).toISOString().slice(0, 10);
    expect([standing, sentence]).toEqual(['does not hold', `M1 was overdue: its calibration fell due on ${fell}.`]);
    expect(rows).toEqual([5, 6]);
  });

  test('whose due day nobody noted are said to be so', () => {
    expect(line('meters', WHOLE, { meters: [due('M1')] }).slice(0, 2)).toEqual([
      'holds',
      'Nothing is known against M1. When M1 falls due for calibration is not known.',
    ]);
  });

  test('that nobody named are not measured', () => {
    expect(line('meters', [bulk({ meter: '' })])[0]).toBe('not measured');
  });
});

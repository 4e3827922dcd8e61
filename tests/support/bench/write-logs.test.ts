import { describe, expect, test } from 'vitest';
import type { Reading } from '../../../src/domain/reading.ts';
import { longForm, tabForm, wideForm } from './write-logs.ts';
import { bandsTable, repairsTable } from './write-tables.ts';

const base: Reading = {
  time: Date.UTC(2026, 2, 14, 9, 14, 40),
  repair: 'T-0131',
  family: 'HERON-48',
  point: 'Q1 D→S',
  stage: 'as received',
  mode: 'resistance',
  specimen: 'board',
  state: 'value',
  value: 0.4,
  prefix: 0,
  decimals: 1,
  meter: 'M1',
  origin: { file: 'made up', line: 1 },
};
const readings: readonly Reading[] = [
  base,
  { ...base, stage: 'part out', value: 640e3, prefix: 6, decimals: 3 },
  { ...base, stage: 'part out', specimen: 'new part', state: 'over-range', value: NaN, prefix: 6, decimals: 0 },
  { ...base, point: 'F1', mode: 'continuity', state: 'no beep', value: NaN, meter: 'M2' },
  { ...base, point: '5V standby', stage: 'live', mode: 'DC volts', value: 4.98, decimals: 2 },
  {
    ...base,
    point: '5V standby',
    stage: 'run-in',
    mode: 'DC volts',
    state: 'blank',
    value: NaN,
    decimals: 0,
    meter: 'B1',
  },
];

describe('shift logs', () => {
  test('are written in the long form', () => {
    expect(longForm(readings).split('\n')).toEqual([
      'time,repair,family,point,stage,mode,specimen,reading,unit,meter',
      '2026-03-14T09:14:40,T-0131,HERON-48,Q1 D→S,as received,resistance,board,0.4,Ω,M1',
      '2026-03-14T09:14:40,T-0131,HERON-48,Q1 D→S,part out,resistance,board,0.640,MΩ,M1',
      '2026-03-14T09:14:40,T-0131,HERON-48,Q1 D→S,part out,resistance,new part,OL,MΩ,M1',
      '2026-03-14T09:14:40,T-0131,HERON-48,F1,as received,continuity,board,no beep,,M2',
      '2026-03-14T09:14:40,T-0131,HERON-48,5V standby,live,DC volts,board,4.98,V,M1',
      '2026-03-14T09:14:40,T-0131,HERON-48,5V standby,run-in,DC volts,board,,V,B1',
      '',
    ]);
  });

  test('are written with one value column per mode, in its header’s unit, and without blanks', () => {
    expect(wideForm(readings).split('\n')).toEqual([
      'date;clock;board;probe;stage;specimen;DC volts [V];AC volts [V];resistance [kΩ];diode [V];continuity [Ω];capacitance [µF];ESR [Ω];current [A];meter',
      '14.03.2026;09:14:40;T-0131;Q1 D→S;as received;board;;;0,0004;;;;;;M1',
      '14.03.2026;09:14:40;T-0131;Q1 D→S;part out;board;;;640;;;;;;M1',
      '14.03.2026;09:14:40;T-0131;Q1 D→S;part out;new part;;;OL;;;;;;M1',
      '14.03.2026;09:14:40;T-0131;F1;as received;board;;;;;no beep;;;;M2',
      '14.03.2026;09:14:40;T-0131;5V standby;live;board;4,98;;;;;;;;M1',
      '',
    ]);
  });

  test('are written with tabs, units in the cells and short words', () => {
    expect(tabForm(readings).split('\n')).toEqual([
      'When\tRepair\tBoard\tTest point\tStep\tSpecimen\tFunction\tReading\tMeter',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\tQ1 D→S\treceived\tboard\tohms\t0.4 Ω\tM1',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\tQ1 D→S\tout\tboard\tohms\t0.640 MΩ\tM1',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\tQ1 D→S\tout\tnew part\tohms\tOL\tM1',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\tF1\treceived\tboard\tcont\tNO BEEP\tM2',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\t5V standby\tlive\tboard\tVdc\t4.98 V\tM1',
      '2026-03-14 09:14:40\tT-0131\tHERON-48\t5V standby\trun-in\tboard\tVdc\t\tB1',
      '',
    ]);
  });
});

describe('tables', () => {
  test('list repairs with their parts, and leave an unknown day empty', () => {
    const repair = { id: 'T-0002', family: 'HERON-48', complaint: 'flicker', received: Date.UTC(2026, 0, 5) } as const;
    const text = repairsTable([
      { ...repair, returned: Date.UTC(2026, 0, 9), outcome: 'comeback', replaced: ['Q1', 'F1'] },
      { ...repair, id: 'T-0003', returned: NaN, outcome: 'open', replaced: [], comebackOf: 'T-0002', bench: 'door' },
    ]);
    expect(text.split('\n').slice(1)).toEqual([
      'T-0002,HERON-48,flicker,2026-01-05,2026-01-09,comeback,Q1 F1,,',
      'T-0003,HERON-48,flicker,2026-01-05,,open,,T-0002,door',
      '',
    ]);
  });

  test('declare points and parts, with or without a band', () => {
    const family = {
      name: 'HERON-48',
      boost: true,
      points: [
        { name: 'Q1 D→S', role: 'part', part: 'Q1' },
        { name: '12V main pin 1', role: 'main', rail: '12V main' },
      ],
      parts: [{ designator: 'Q1', nodes: ['drain', 'source'] }],
    } as const;
    const place = { family: 'HERON-48', point: 'Q1 D→S', mode: 'resistance', basis: 'typed in' } as const;
    const text = bandsTable(
      [family],
      [{ ...place, stage: 'part out', expects: { kind: 'open', limit: 1e6 }, date: '2026-01-05' }],
    );
    expect(text.split('\n').slice(1)).toEqual([
      'HERON-48,yes,Q1 D→S,part,,Q1,drain/source,part out,resistance,open,1,,,,MΩ,typed in,,2026-01-05',
      'HERON-48,yes,12V main pin 1,main,12V main,,,,,,,,,,,,,',
      '',
    ]);
  });
});

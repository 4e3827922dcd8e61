import type { LogCase } from './log-case.ts';

/** Tables of repairs by what they hold, and columns that technicians add. */
export const tables: readonly LogCase[] = [
  {
    name: 'repairs under the words of a shop',
    log: `
sheet;layout;came;went;how it went;fitted
T-0001;HERON-48;2026-11-03;2026-11-05;repaired;Q1 D3 F1
T-0002;PLOVER-32;2026-11-03;2026-11-04;scrap;
T-0003;HERON-48;2026-11-04;2026-11-06;no fault found;
`,
    answers: {
      columns: {
        sheet: { field: 'repair' }, layout: { field: 'family' }, came: { field: 'received' }, went: { field: 'returned' },
        'how it went': { field: 'outcome' }, fitted: { field: 'replaced' },
      },
    }, // prettier-ignore
    repairs: `
T-0001 | HERON-48  | 2026-11-03 | 2026-11-05 | returned working    | Q1 D3 F1
T-0002 | PLOVER-32 | 2026-11-03 | 2026-11-04 | not worth repairing |
T-0003 | HERON-48  | 2026-11-04 | 2026-11-06 | no fault found      |`,
  },
  {
    name: 'repairs under foreign headers',
    log: `
Auftrag;Typ;Eingang;Ausgang;Ergebnis;Teile
T-0001;HERON-48;03.11.2026;05.11.2026;fixed;Q1, D3
T-0002;PLOVER-32;13.11.2026;14.11.2026;BER;
`,
    answers: {
      columns: {
        Auftrag: { field: 'repair' }, Typ: { field: 'family' }, Eingang: { field: 'received' }, Ausgang: { field: 'returned' },
        Ergebnis: { field: 'outcome' }, Teile: { field: 'replaced' },
      },
    }, // prettier-ignore
    repairs: `
T-0001 | HERON-48  | 2026-11-03 | 2026-11-05 | returned working    | Q1 D3
T-0002 | PLOVER-32 | 2026-11-13 | 2026-11-14 | not worth repairing |`,
  },
  {
    name: 'repairs without a header',
    log: `
T-0001,HERON-48,2026-11-03,2026-11-05,repaired,Q1 D3
T-0002,PLOVER-32,2026-11-03,2026-11-04,scrapped,
T-0003,HERON-48,2026-11-04,2026-11-06,NFF,
`,
    answers: {
      columns: {
        1: { field: 'repair' }, 2: { field: 'family' }, 3: { field: 'received' }, 4: { field: 'returned' }, 5: { field: 'outcome' }, 6: { field: 'replaced' },
      },
    }, // prettier-ignore
    repairs: `
T-0001 | HERON-48  | 2026-11-03 | 2026-11-05 | returned working    | Q1 D3
T-0002 | PLOVER-32 | 2026-11-03 | 2026-11-04 | not worth repairing |
T-0003 | HERON-48  | 2026-11-04 | 2026-11-06 | no fault found      |`,
  },
  {
    name: 'pass and fail of a logger beside the reading',
    log: `
repair,point,stage,reading,limit low,limit high,verdict
T-0001,bulk,live,388.4 VDC,380,400,PASS
T-0001,standby,live,3.11 VDC,4.75,5.25,FAIL
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 3.11 V`,
  },
  {
    name: 'a column of the expected beside the measured',
    log: `
repair,point,stage,expected,measured
T-0001,bulk,live,390 VDC,388.4 VDC
T-0001,standby,live,5 VDC,5.02 VDC
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
    answers: { columns: { expected: { field: 'ignored' } } },
  },
  {
    name: 'the temperature of the room beside the reading',
    log: `
time;repair;point;stage;reading;°C
2026-11-03 08:12;T-0001;bulk;live;388,4 VDC;21,5
2026-11-03 08:13;T-0001;standby;live;5,02 VDC;21,6
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk    | live | 388.4 V
08:13            |        | standby |      | 5.02 V`,
  },
  {
    name: 'volts and amperes of one point side by side',
    log: `
repair,point,stage,V DC,A
T-0001,12V main,live,12.05,1.42
T-0002,12V main,live,12.01,0.03
`,
    reads: `
- | T-0001 | 12V main | live | 12.05 V
- |        |          |      | 1.42 A
- | T-0002 |          |      | 12.01 V
- |        |          |      | 0.03 A`,
  },
  {
    name: 'before and after beside each other',
    log: `
repair,point,before (Ω),after (Ω)
T-0001,Q1 D-S,0.3,640000
T-0002,Q1 D-S,0.4,655000
`,
    // “Before” may be as received or part out, “after” refitted or live: the bench's own words.
    asks: ['columns'],
    answers: {
      columns: { 'before (Ω)': { stage: 'as received' }, 'after (Ω)': { stage: 'refitted' } },
    },
    reads: `
- | T-0001 | Q1 D-S | as received | 0.3 Ω
- |        |        | refitted    | 640000 Ω
- | T-0002 |        | as received | 0.4 Ω
- |        |        | refitted    | 655000 Ω`,
  },
  {
    name: 'a channel in place of a point',
    log: `
time,channel,value,unit
2026-11-03 08:12,1,388.4,V DC
2026-11-03 08:12,2,5.02,V DC
2026-11-03 08:13,1,388.2,V DC
`,
    // What the channels were clipped to, only the technician knows.
    answers: { given: { repair: 'T-0001', stage: 'run-in' }, columns: { channel: { field: 'point' } } },
    asks: ['columns'],
    reads: `
2026-11-03 08:12 | T-0001 | 1 | run-in | 388.4 V
08:12            |        | 2 |        | 5.02 V
08:13            |        | 1 |        | 388.2 V`,
  },
  {
    name: 'a column that is struck out by its own header',
    log: `
repair,point,stage,reading,old reading
T-0001,bulk,live,388.4 VDC,322.1 VDC
T-0001,standby,live,5.02 VDC,0.4 VDC
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
  },
  {
    name: 'units and values in one header, a clock in another language',
    log: `
Päivä;Kello;Huolto;Piste;Vaihe;Jännite (V DC)
3.11.2026;8:12;T-0001;bulk;live;388,4
13.11.2026;9:40;T-0002;bulk;live;389,0
`,
    answers: { columns: { Huolto: { field: 'repair' }, Piste: { field: 'point' }, Vaihe: { field: 'stage' } } },
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-13 09:40 | T-0002 |      |      | 389 V`,
  },
  {
    name: 'headers in capitals with dots and numbers before them',
    log: `
1. REPAIR NO.;2. TEST POINT;3. STAGE;4. READING [V DC]
T-0001;bulk;live;388,4
T-0001;standby;live;5,02
`,
    answers: {
      columns: {
        '1. REPAIR NO.': { field: 'repair' },
        '2. TEST POINT': { field: 'point' },
        '3. STAGE': { field: 'stage' },
      },
    },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
  },
  {
    name: 'two columns of one name',
    log: `
repair,point,stage,reading,reading
T-0001,bulk,live,388.4 VDC,387.0 VDC
T-0001,standby,live,5.02 VDC,5.00 VDC
`,
    asks: ['columns'],
    answers: { columns: {} },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
  },
];

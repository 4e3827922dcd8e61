import type { LogCase } from './log-case.ts';

/** A row a repair or a moment, a column a point; units in headers, beside values, or not at all. */
export const wide: readonly LogCase[] = [
  {
    name: 'points with numbers, letters and modes in their headers',
    log: `
repair,backlight A (V DC),backlight B (V DC),12V out (V DC),sense R (mV DC)
T-0001,186.2,185.9,12.04,45.3
T-0002,187.0,0.2,12.01,0.1
`,
    answers: { given: { stage: 'live' } },
    reads: `
- | T-0001 | backlight A | live | 186.2 V
- |        | backlight B |      | 185.9 V
- |        | 12V out     |      | 12.04 V
- |        | sense R     |      | 45.3 mV
- | T-0002 | backlight A |      | 187 V
- |        | backlight B |      | 0.2 V
- |        | 12V out     |      | 12.01 V
- |        | sense R     |      | 0.1 mV`,
  },
  {
    name: 'points in square brackets, units behind a slash',
    log: `
Repair;bulk / V DC;standby / V DC;R sense / mΩ
T-0001;388,4;5,02;220
T-0002;322,1;5,01;221
`,
    answers: { given: { stage: 'live' } },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V
- |        | R sense |      | 220 mΩ
- | T-0002 | bulk    |      | 322.1 V
- |        | standby |      | 5.01 V
- |        | R sense |      | 221 mΩ`,
  },
  {
    name: 'some columns state a unit and some do not',
    log: `
repair,bulk (V DC),standby,Q1 D-S (kΩ)
T-0001,388.4,5.02,640
T-0002,389.0,5.01,655
`,
    asks: ['given'],
    answers: { given: { stage: 'live', mode: 'DC volts' } },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V
- |        | Q1 D-S  |      | 640 kΩ
- | T-0002 | bulk    |      | 389 V
- |        | standby |      | 5.01 V
- |        | Q1 D-S  |      | 655 kΩ`,
  },
  {
    name: 'a line of units under the header',
    log: `
time,bulk,standby,12V main
,V DC,V DC,V DC
2026-11-03 08:12:00,388.4,5.02,12.05
2026-11-03 08:13:00,388.1,5.02,12.04
`,
    answers: { given: { repair: 'T-0001', stage: 'run-in' } },
    reads: `
2026-11-03 08:12 | T-0001 | bulk     | run-in | 388.4 V
08:12            |        | standby  |        | 5.02 V
08:12            |        | 12V main |        | 12.05 V
08:13            |        | bulk     |        | 388.1 V
08:13            |        | standby  |        | 5.02 V
08:13            |        | 12V main |        | 12.04 V`,
  },
  {
    name: 'Value 1, Unit 1, Value 2, Unit 2 of a meter with two displays',
    log: `
time,Value 1,Unit 1,Value 2,Unit 2
2026-11-03 08:12:00,388.4,V DC,0.85,V AC
2026-11-03 08:12:01,388.3,V DC,0.86,V AC
`,
    answers: { given: { repair: 'T-0001', point: 'bulk', stage: 'live' } },
    reads: `
2026-11-03 08:12:00 | T-0001 | bulk | live | 388.4 V
08:12:00            |        |      |      | 0.85 V AC
08:12:01            |        |      |      | 388.3 V
08:12:01            |        |      |      | 0.86 V AC`,
  },
  {
    name: 'main and second display, the second a frequency',
    log: `
Time;Main;Unit;Sub;Sub unit
2026-11-03 08:12:00;230,4;V AC;50,02;Hz
2026-11-03 08:12:01;230,5;V AC;50,01;Hz
`,
    // A frequency is none of the bench's quantities: it is named, not read as volts.
    answers: { given: { repair: 'T-0001', point: 'mains', stage: 'live' }, columns: { Main: { field: 'reading' } } },
    reads: `
2026-11-03 08:12:00 | T-0001 | mains | live | 230.4 V AC
08:12:01            |        |       |      | 230.5 V AC`,
  },
  {
    name: 'Min, Max and Avg beside the value',
    log: `
time,value,min,max,avg,unit
2026-11-03 08:12:00,12.05,11.90,12.10,12.02,V DC
2026-11-03 08:13:00,12.04,11.90,12.10,12.02,V DC
2026-11-03 08:14:00,12.06,11.90,12.10,12.03,V DC
`,
    answers: { given: { repair: 'T-0001', point: '12V main', stage: 'run-in' } },
    reads: `
2026-11-03 08:12 | T-0001 | 12V main | run-in | 12.05 V
08:13            |        |          |        | 12.04 V
08:14            |        |          |        | 12.06 V`,
  },
  {
    name: 'Min, Max and Avg and no value',
    log: `
time;Min;Max;Avg;Unit
2026-11-03 08:12:00;11,90;12,10;12,02;V DC
2026-11-03 08:13:00;11,91;12,09;12,01;V DC
`,
    // Which of the three stands for the minute is for the technician to say.
    asks: ['columns'],
    answers: {
      given: { repair: 'T-0001', point: '12V main', stage: 'run-in' },
      columns: { Avg: { field: 'reading' }, Min: { field: 'ignored' }, Max: { field: 'ignored' } },
    },
    reads: `
2026-11-03 08:12 | T-0001 | 12V main | run-in | 12.02 V
08:13            |        |          |        | 12.01 V`,
  },
  {
    name: 'a row counter named ID, and repairs under another word',
    log: `
ID,job sheet,point,stage,reading
1,T-0001,bulk,live,388.4 VDC
2,T-0001,standby,live,5.02 VDC
3,T-0002,bulk,live,389.0 VDC
4,T-0002,standby,live,5.01 VDC
`,
    answers: { columns: { 'job sheet': { field: 'repair' }, ID: { field: 'ignored' } } },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V
- | T-0002 | bulk    |      | 389 V
- |        | standby |      | 5.01 V`,
  },
  {
    name: 'a row counter named ID and no repair at all',
    log: `
ID,point,stage,reading
1,bulk,live,388.4 VDC
2,standby,live,5.02 VDC
3,12V main,live,12.05 VDC
`,
    // As many repairs as rows: a counter, or three boards of which one point each was measured. Nobody can know.
    answers: { given: { repair: 'T-0001' }, columns: { ID: { field: 'ignored' } } },
    reads: `
- | T-0001 | bulk     | live | 388.4 V
- |        | standby  |      | 5.02 V
- |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'a sample counter before the value',
    log: `
Sample,Time,Reading,Unit
1,2026-11-03 08:12:00,12.05,V DC
2,2026-11-03 08:12:10,12.04,V DC
3,2026-11-03 08:12:20,12.06,V DC
`,
    answers: { given: { repair: 'T-0001', point: '12V main', stage: 'run-in' } },
    reads: `
2026-11-03 08:12:00 | T-0001 | 12V main | run-in | 12.05 V
08:12:10            |        |          |        | 12.04 V
08:12:20            |        |          |        | 12.06 V`,
  },
  {
    name: 'a wide sheet with a blank where a point was not measured',
    log: `
repair;bulk V DC;standby V DC;F1 Ω
T-0001;388,4;;0,2
T-0002;;5,02;OL
`,
    answers: { given: { stage: 'live' } },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | F1      |      | 0.2 Ω
- | T-0002 | standby |      | 5.02 V
- |        | F1      |      | OL Ω`,
  },
];

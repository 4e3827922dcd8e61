import type { LogCase } from './log-case.ts';

const DAY = Date.UTC(2026, 10, 3);
const NINE = DAY + 9 * 3_600_000;

/** More days and clocks: months in words (CLDR, by `Intl`), zones and offsets (ISO 8601-1), days without a time, odd firmware. */
export const moments: readonly LogCase[] = [
  {
    name: 'months in German words',
    log: `
Datum;Auftrag;Messpunkt;Stage;Messwert
3. November 2026 08:12;T-0001;bulk;live;388,4 V DC
13. März 2026 09:15;T-0002;bulk;live;389,0 V DC
1. Dez. 2026 10:00;T-0003;bulk;live;387,2 V DC
`,
    answers: { columns: { Auftrag: { field: 'repair' }, Messpunkt: { field: 'point' } } },
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-03-13 09:15 | T-0002 |      |      | 389 V
2026-12-01 10:00 | T-0003 |      |      | 387.2 V`,
  },
  {
    name: 'months in French words with and without accents',
    log: `
date;repair;point;stage;reading
3 févr. 2026 08:12;T-0001;bulk;live;388,4 V DC
13 aout 2026 08:13;T-0002;bulk;live;389,0 V DC
1 décembre 2026 08:14;T-0003;bulk;live;387,2 V DC
`,
    reads: `
2026-02-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-08-13 08:13 | T-0002 |      |      | 389 V
2026-12-01 08:14 | T-0003 |      |      | 387.2 V`,
  },
  {
    name: 'months in Russian and Polish words in one shop',
    log: `
date,repair,point,stage,reading
3 ноября 2026 08:12,T-0001,bulk,live,388.4 VDC
13 listopada 2026 08:13,T-0002,bulk,live,389.0 VDC
1 дек. 2026 08:14,T-0003,bulk,live,387.2 VDC
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-13 08:13 | T-0002 |      |      | 389 V
2026-12-01 08:14 | T-0003 |      |      | 387.2 V`,
  },
  {
    name: 'days as year, month and day in Chinese and Japanese',
    log: `
time,repair,point,stage,reading
2026年11月3日 08:12,T-0001,bulk,live,388.4 VDC
2026年11月13日 14:05,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-13 14:05 | T-0002 |      |      | 389 V`,
  },
  {
    name: 'weekday, month, day, as a phone writes them',
    log: `
When,Repair,Point,Stage,Reading
"Tue, Nov 3, 2026, 8:12 AM",T-0001,bulk,live,388.4 VDC
"Fri, Nov 13, 2026, 2:05 PM",T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-13 14:05 | T-0002 |      |      | 389 V`,
  },
  {
    name: 'day-month-year with a month of three letters and two digits of the year',
    log: `
date,clock,repair,point,stage,reading
03-Nov-26,08:12:05,T-0001,bulk,live,388.4 VDC
13-NOV-26,14:05:00,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk | live | 388.4 V
2026-11-13 14:05    | T-0002 |      |      | 389 V`,
  },
  {
    name: 'days without a time',
    log: `
date,repair,point,stage,reading
2026-11-03,T-0001,bulk,as received,0.3 Ω
2026-11-03,T-0001,bulk,live,388.4 VDC
2026-11-04,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 | T-0001 | bulk | as received | 0.3 Ω
           |        |      | live        | 388.4 V
2026-11-04 | T-0002 |      |             | 389 V`,
  },
  {
    name: 'some rows with a clock and some without',
    log: `
date,clock,repair,point,stage,reading
2026-11-03,08:12,T-0001,bulk,live,388.4 VDC
2026-11-03,,T-0001,standby,live,5.02 VDC
2026-11-04,07:30,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk    | live | 388.4 V
2026-11-03       |        | standby |      | 5.02 V
2026-11-04 07:30 | T-0002 | bulk    |      | 389 V`,
  },
  {
    name: 'days that a spreadsheet wrote with 00:00:00',
    log: `
date,repair,point,stage,reading
2026-11-03 00:00:00,T-0001,bulk,live,388.4 VDC
2026-11-04 00:00:00,T-0002,bulk,live,389.0 VDC
2026-11-05 00:00:00,T-0003,bulk,live,388.0 VDC
`,
    reads: `
2026-11-03 | T-0001 | bulk | live | 388.4 V
2026-11-04 | T-0002 |      |      | 389 V
2026-11-05 | T-0003 |      |      | 388 V`,
  },
  {
    name: 'several offsets in one file, over a change of the clocks',
    log: `
time,repair,point,stage,reading
2026-10-25T01:30:00+02:00,T-0001,bulk,live,388.4 VDC
2026-10-25T02:30:00+01:00,T-0001,standby,live,5.02 VDC
2026-10-26T08:00:00+01:00,T-0002,bulk,live,389.0 VDC
`,
    says: /zone|offset|UTC/,
    reads: `
2026-10-25 01:30 | T-0001 | bulk    | live | 388.4 V
02:30            |        | standby |      | 5.02 V
2026-10-26 08:00 | T-0002 | bulk    |      | 389 V`,
  },
  {
    name: 'a bench with Z and a bench with an offset in one file',
    log: `
time,meter,repair,point,stage,reading
2026-11-03T07:12:00Z,B1,T-0001,bulk,live,388.4 VDC
2026-11-03T08:13:00+01:00,M1,T-0001,standby,live,5.02 VDC
2026-11-03T07:14:00Z,B1,T-0001,12V main,live,12.05 VDC
`,
    // Local time of one lies an hour from local time of the other: whether to leave zones off is for a person to say.
    says: /zone|offset|UTC/,
    reads: `
2026-11-03 07:12 | T-0001 | bulk     | live | 388.4 V
08:13            |        | standby  |      | 5.02 V
07:14            |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'zones in letters behind the time',
    log: `
time,repair,point,stage,reading
2026-11-03 08:12:00 CET,T-0001,bulk,live,388.4 VDC
2026-11-03 08:13:00 CET,T-0001,standby,live,5.02 VDC
`,
    says: /zone|offset|UTC/,
    reads: `
2026-11-03 08:12 | T-0001 | bulk    | live | 388.4 V
08:13            |        | standby |      | 5.02 V`,
  },
  {
    name: 'Z behind milliseconds',
    log: `
Logged;Repair;Point;Stage;Reading
2026-11-03T08:12:05.125Z;T-0001;bulk;live;388,4 V DC
2026-11-03T08:12:06.250Z;T-0001;standby;live;5,02 V DC
`,
    says: /zone|offset|UTC/,
    reads: `
2026-11-03 08:12:05.125 | T-0001 | bulk    | live | 388.4 V
2026-11-03 08:12:06.250 |        | standby |      | 5.02 V`,
  },
  {
    name: 'elapsed m:ss of a short run-in',
    log: `
Run time;V DC
0:00;12,06
0:20;12,05
9:40;12,05
10:00;12,01
`,
    answers: {
      given: { repair: 'T-0001', point: '12V main', stage: 'run-in', start: NINE },
      columns: { 'Run time': { field: 'elapsed' } },
    },
    reads: `
2026-11-03 09:00 | T-0001 | 12V main | run-in | 12.06 V
09:00:20         |        |          |        | 12.05 V
09:09:40         |        |          |        | 12.05 V
09:10            |        |          |        | 12.01 V`,
  },
  {
    name: 'elapsed mm:ss.s of a logger',
    log: `
Elapsed,Reading,Unit
00:00.0,12.06,V DC
00:00.5,12.05,V DC
01:30.0,12.04,V DC
`,
    answers: { given: { repair: 'T-0001', point: '12V main', stage: 'run-in', start: NINE } },
    reads: `
2026-11-03 09:00        | T-0001 | 12V main | run-in | 12.06 V
2026-11-03 09:00:00.500 |        |          |        | 12.05 V
2026-11-03 09:01:30     |        |          |        | 12.04 V`,
  },
  {
    name: 'elapsed hours beyond a day',
    log: `
elapsed,12V main (V DC)
00:00:00,12.06
23:59:30,12.05
25:00:00,12.01
`,
    answers: { given: { repair: 'T-0001', stage: 'run-in', start: NINE } },
    reads: `
2026-11-03 09:00    | T-0001 | 12V main | run-in | 12.06 V
2026-11-04 08:59:30 |        |          |        | 12.05 V
2026-11-04 10:00    |        |          |        | 12.01 V`,
  },
  {
    name: 'seconds since 1970 with a fraction',
    log: `
time;repair;point;stage;reading
1793693525.250;T-0001;bulk;live;388.4 VDC
1793693526.500;T-0001;standby;live;5.02 VDC
`,
    reads: `
2026-11-03 08:12:05.250 | T-0001 | bulk    | live | 388.4 V
2026-11-03 08:12:06.500 |        | standby |      | 5.02 V`,
  },
  {
    name: 'a spreadsheet day beside a fraction of the day',
    log: `
date,time,repair,point,stage,reading
46329,0.5,T-0001,bulk,live,388.4 VDC
46329,0.75,T-0001,standby,live,5.02 VDC
46330,0.25,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 12:00 | T-0001 | bulk    | live | 388.4 V
18:00            |        | standby |      | 5.02 V
2026-11-04 06:00 | T-0002 | bulk    |      | 389 V`,
  },
  {
    name: 'a clock that was never set',
    log: `
time,repair,point,stage,reading
2026-11-03 08:12:00,T-0001,bulk,live,388.4 VDC
1970-01-01 00:00:07,T-0001,standby,live,5.02 VDC
2026-11-03 08:14:00,T-0001,12V main,live,12.05 VDC
`,
    says: /1970|far from/,
    reads: `
2026-11-03 08:12    | T-0001 | bulk     | live | 388.4 V
1970-01-01 00:00:07 |        | standby  |      | 5.02 V
2026-11-03 08:14    |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'a clock alone and a midnight passed',
    log: `
clock,12V main (V DC)
23:58:00,12.06
23:59:00,12.05
00:00:00,12.05
00:01:00,12.04
`,
    answers: { given: { repair: 'T-0001', stage: 'run-in', start: DAY } },
    reads: `
2026-11-03 23:58 | T-0001 | 12V main | run-in | 12.06 V
23:59            |        |          |        | 12.05 V
2026-11-04 00:00 |        |          |        | 12.05 V
00:01            |        |          |        | 12.04 V`,
  },
  {
    name: 'a day that does not exist',
    log: `
date,repair,point,stage,reading
2026-11-30 08:12,T-0001,bulk,live,388.4 VDC
2026-11-31 08:12,T-0002,bulk,live,389.0 VDC
2026-12-01 08:12,T-0003,bulk,live,387.0 VDC
`,
    reads: `
2026-11-30 08:12 | T-0001 | bulk | live | 388.4 V
2026-12-01 08:12 | T-0003 |      |      | 387 V`,
    aside: { 3: /day|date|time/ },
  },
];

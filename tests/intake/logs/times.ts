import type { LogCase } from './log-case.ts';

const DAY = Date.UTC(2026, 10, 3);

/** Days, clocks and starts in disguise. ISO 8601-1 for dates and times; names of months and days are CLDR's, as `Intl` has them. */
export const times: readonly LogCase[] = [
  {
    name: 'a clock beside the date under Finnish headers',
    log: `
pvm;klo;työ;piste;vaihe;lukema;yksikkö
3.11.2026;8.12;T-0001;bulk;live;388,4;V DC
3.11.2026;8.14;T-0001;standby;live;5,02;V DC
3.11.2026;14.05;T-0002;bulk;live;389,1;V DC
13.11.2026;9.30;T-0003;bulk;live;387,9;V DC
`,
    answers: { columns: { työ: { field: 'repair' }, piste: { field: 'point' } } },
    reads: `
2026-11-03 08:12 | T-0001 | bulk    | live | 388.4 V
08:14            |        | standby |      | 5.02 V
14:05            | T-0002 | bulk    |      | 389.1 V
2026-11-13 09:30 | T-0003 |         |      | 387.9 V`,
  },
  {
    name: 'a clock beside the date, neither named',
    log: `
2026-11-03,08:12:05,T-0001,bulk,live,388.4 VDC
2026-11-03,08:13:11,T-0001,12V main,live,12.05 VDC
2026-11-04,08:01:00,T-0002,bulk,live,389.0 VDC
`,
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk     | live | 388.4 V
08:13:11            |        | 12V main |      | 12.05 V
2026-11-04 08:01    | T-0002 | bulk     |      | 389 V`,
    answers: { columns: { 3: { field: 'repair' }, 4: { field: 'point' } } },
  },
  {
    name: 'a clock with AM and PM beside the date',
    log: `
Date,When,Repair,Point,Stage,Value
11/13/2026,12:05 AM,T-0001,bulk,live,388.4 VDC
11/13/2026,12:05 PM,T-0001,standby,live,5.02 VDC
11/13/2026,1:07 pm,T-0001,12V main,live,12.05 VDC
`,
    reads: `
2026-11-13 00:05 | T-0001 | bulk     | live | 388.4 V
12:05            |        | standby  |      | 5.02 V
13:07            |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'a clock with h in it, as French and Portuguese write it',
    log: `
date;heure;repair;point;stage;valeur
13/11/2026;8h05;T-0001;bulk;live;388,4 V DC
13/11/2026;8h07;T-0001;standby;live;5,02 V DC
13/11/2026;14h30;T-0001;12V main;live;12,05 V DC
`,
    reads: `
2026-11-13 08:05 | T-0001 | bulk     | live | 388.4 V
08:07            |        | standby  |      | 5.02 V
14:30            |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'the day written once above its rows',
    log: `
date,time,repair,point,stage,reading
2026-11-03,08:12,T-0001,bulk,live,388.4 VDC
,08:13,T-0001,standby,live,5.02 VDC
,08:15,T-0001,12V main,live,12.05 VDC
2026-11-04,07:50,T-0002,bulk,live,389.0 VDC
,07:52,T-0002,standby,live,5.01 VDC
`,
    reads: `
2026-11-03 08:12 | T-0001 | bulk     | live | 388.4 V
08:13            |        | standby  |      | 5.02 V
08:15            |        | 12V main |      | 12.05 V
2026-11-04 07:50 | T-0002 | bulk     |      | 389 V
07:52            |        | standby  |      | 5.01 V`,
  },
  {
    name: 'the day and the repair written once, as in a merged cell',
    log: `
Day;Job;Clock;Point;Stage;Reading
03.11.2026;T-0001;08:12;bulk;live;388,4 V DC
;;08:13;standby;live;5,02 V DC
;T-0002;09:40;bulk;live;389,0 V DC
13.11.2026;T-0003;08:00;bulk;live;387,0 V DC
`,
    // A blank repair under a stated one is the same repair only if somebody says so.
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
09:40            | T-0002 | bulk |      | 389 V
2026-11-13 08:00 | T-0003 |      |      | 387 V`,
    aside: { 3: /repair/ },
  },
  {
    name: 'dates year first with two digits',
    log: `
date,repair,point,stage,reading
26-11-03 08:12,T-0001,bulk,live,388.4 VDC
26-11-13 08:14,T-0002,bulk,live,388.9 VDC
26-11-28 16:40,T-0003,bulk,live,389.1 VDC
`,
    // Read day first, 26-11-28 and its neighbours would lie years apart, always on a 26th: year first, or a question.
    answers: { dateOrder: 'year-month-day' },
    reads: `
2026-11-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-13 08:14 | T-0002 |      |      | 388.9 V
2026-11-28 16:40 | T-0003 |      |      | 389.1 V`,
  },
  {
    name: 'dates year first with two digits and days beyond the years',
    log: `
when;repair;point;stage;reading
26/11/30 23:58;T-0001;bulk;live;388,4 VDC
26/12/01 00:02;T-0001;standby;live;5,02 VDC
26/12/31 08:00;T-0002;bulk;live;388,2 VDC
`,
    answers: { dateOrder: 'year-month-day' },
    reads: `
2026-11-30 23:58 | T-0001 | bulk    | live | 388.4 V
2026-12-01 00:02 |        | standby |      | 5.02 V
2026-12-31 08:00 | T-0002 | bulk    |      | 388.2 V`,
  },
  {
    name: 'dates of six digits without marks',
    log: `
date,clock,repair,point,stage,reading
261103,081205,T-0001,bulk,live,388.4 VDC
261103,081312,T-0001,standby,live,5.02 VDC
261128,140000,T-0002,bulk,live,389.4 VDC
`,
    answers: { dateOrder: 'year-month-day' },
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk    | live | 388.4 V
08:13:12            |        | standby |      | 5.02 V
2026-11-28 14:00    | T-0002 | bulk    |      | 389.4 V`,
  },
  {
    name: 'day and month that could change places',
    log: `
date,repair,point,stage,reading
03/04/2026 08:12,T-0001,bulk,live,388.4 VDC
05/04/2026 08:14,T-0002,bulk,live,388.9 VDC
`,
    asks: ['date order'],
    answers: { dateOrder: 'day-month-year' },
    reads: `
2026-04-03 08:12 | T-0001 | bulk | live | 388.4 V
2026-04-05 08:14 | T-0002 |      |      | 388.9 V`,
  },
  {
    name: 'elapsed minutes and seconds of a run-in',
    log: `
elapsed,12V main (V DC)
00:00,12.06
00:30,12.05
01:00,12.05
59:30,12.01
60:00,12.00
`,
    answers: { given: { repair: 'T-0001', stage: 'run-in', start: DAY + 8 * 3_600_000 } },
    asks: ['given'],
    reads: `
2026-11-03 08:00 | T-0001 | 12V main | run-in | 12.06 V
08:00:30         |        |          |        | 12.05 V
08:01            |        |          |        | 12.05 V
08:59:30         |        |          |        | 12.01 V
09:00            |        |          |        | 12 V`,
  },
  {
    name: 'elapsed seconds that count by tenths',
    log: `
t [s];U [V DC]
0,0;12,06
0,1;12,05
0,2;12,05
0,3;12,04
`,
    answers: {
      given: { repair: 'T-0001', point: '12V main', stage: 'run-in', start: DAY },
      columns: { 't [s]': { field: 'elapsed' } },
    },
    reads: `
2026-11-03 00:00        | T-0001 | 12V main | run-in | 12.06 V
2026-11-03 00:00:00.100 |        |          |        | 12.05 V
2026-11-03 00:00:00.200 |        |          |        | 12.05 V
2026-11-03 00:00:00.300 |        |          |        | 12.04 V`,
  },
  {
    name: 'seconds since 1970',
    log: `
timestamp,repair,point,stage,reading
1793693525,T-0001,bulk,live,388.4 VDC
1793693585,T-0001,standby,live,5.02 VDC
1793697125,T-0002,bulk,live,389.0 VDC
`,
    // Counted in UTC, while a bench counts its own wall time: which zone it was is for the technician to say.
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk    | live | 388.4 V
08:13:05            |        | standby |      | 5.02 V
09:12:05            | T-0002 | bulk    |      | 389 V`,
  },
  {
    name: 'milliseconds since 1970 under a name that says nothing',
    log: `
ts,repair,point,stage,reading
1793693525000,T-0001,bulk,live,388.4 VDC
1793693525250,T-0001,standby,live,5.02 VDC
1793693526000,T-0001,12V main,live,12.05 VDC
`,
    answers: { columns: { ts: { field: 'time' } } },
    reads: `
2026-11-03 08:12:05     | T-0001 | bulk     | live | 388.4 V
2026-11-03 08:12:05.250 |        | standby  |      | 5.02 V
2026-11-03 08:12:06     |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'day numbers of a spreadsheet',
    // Day 46329 counts from 30 December 1899, so that it is 3 November 2026: common practice, no source.
    log: `
Date;Repair;Point;Stage;Reading
46329,341724537;T-0001;bulk;live;388,4 V DC
46329,5;T-0002;bulk;live;389,0 V DC
46330,25;T-0003;bulk;live;387,5 V DC
`,
    answers: { columns: { Date: { field: 'time' } } },
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk | live | 388.4 V
12:00               | T-0002 |      |      | 389 V
2026-11-04 06:00    | T-0003 |      |      | 387.5 V`,
  },
  {
    name: 'whole day numbers of a spreadsheet',
    log: `
day,repair,point,stage,reading
46329,T-0001,bulk,live,388.4 VDC
46330,T-0002,bulk,live,389.0 VDC
46331,T-0003,bulk,live,387.5 VDC
`,
    reads: `
2026-11-03 | T-0001 | bulk | live | 388.4 V
2026-11-04 | T-0002 |      |      | 389 V
2026-11-05 | T-0003 |      |      | 387.5 V`,
  },
  {
    name: 'a trailing Z',
    log: `
time,repair,point,stage,reading
2026-11-03T08:12:05Z,T-0001,bulk,live,388.4 VDC
2026-11-03T08:13:05Z,T-0001,standby,live,5.02 VDC
`,
    says: /zone|UTC|offset/,
    reads: `
2026-11-03 08:12:05 | T-0001 | bulk    | live | 388.4 V
08:13:05            |        | standby |      | 5.02 V`,
  },
  {
    name: 'narrow no-break spaces before AM and PM',
    log: `
time,repair,point,stage,reading
"11/13/2026, 8:12:05\u202fAM",T-0001,bulk,live,388.4 VDC
"11/13/2026, 12:13:05\u202fPM",T-0001,standby,live,5.02 VDC
"11/13/2026, 4:01:00\u202fPM",T-0001,12V main,live,12.05 VDC
`,
    reads: `
2026-11-13 08:12:05 | T-0001 | bulk     | live | 388.4 V
12:13:05            |        | standby  |      | 5.02 V
16:01               |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'a. m. and p. m. with blanks, as Spanish writes them',
    log: `
Fecha;Repair;Point;Stage;Valor
13/11/2026 8:12:05 a. m.;T-0001;bulk;live;388,4 V DC
13/11/2026 12:13:05 p.\u00a0m.;T-0001;standby;live;5,02 V DC
13/11/2026 4:01:00 p. m.;T-0001;12V main;live;12,05 V DC
`,
    reads: `
2026-11-13 08:12:05 | T-0001 | bulk     | live | 388.4 V
12:13:05            |        | standby  |      | 5.02 V
16:01               |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'both orders of day and month in one file',
    log: `
date,repair,point,stage,reading
13/11/2026 08:12,T-0001,bulk,live,388.4 VDC
11/14/2026 08:12,T-0002,bulk,live,389.0 VDC
15/11/2026 08:12,T-0003,bulk,live,387.0 VDC
`,
    asks: ['date order'],
    answers: { dateOrder: 'day-month-year' },
    reads: `
2026-11-13 08:12 | T-0001 | bulk | live | 388.4 V
2026-11-15 08:12 | T-0003 |      |      | 387 V`,
    aside: { 3: /month|day/ },
  },
];

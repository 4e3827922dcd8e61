import type { LogCase } from './log-case.ts';

const GOOD = `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`;

/** What stands around, between and behind the rows. RFC 4180 for quotation marks; the rest common practice, no source. */
export const layouts: readonly LogCase[] = [
  {
    name: 'a device block of many lines before the header',
    log: `
Device:,Bench logger B1
Serial:,00012
Firmware:,2.4
Interval:,60 s
Started:,2026-11-03 08:12:00
Channel 1:,12V main

No.,Time,Value,Unit
1,2026-11-03 08:12:00,12.06,V DC
2,2026-11-03 08:13:00,12.05,V DC
`,
    answers: { given: { repair: 'T-0001', point: '12V main', stage: 'run-in' } },
    reads: `
2026-11-03 08:12 | T-0001 | 12V main | run-in | 12.06 V
08:13            |        |          |        | 12.05 V`,
  },
  {
    name: 'a device block in comment marks',
    log: `
# logger B1
# channel 1 = 12V main
# units: V DC
time;repair;point;stage;reading
2026-11-03 08:12;T-0001;12V main;run-in;12,06 V DC
2026-11-03 08:13;T-0001;12V main;run-in;12,05 V DC
`,
    reads: `
2026-11-03 08:12 | T-0001 | 12V main | run-in | 12.06 V
08:13            |        |          |        | 12.05 V`,
  },
  {
    name: 'title rows as wide as the table',
    log: `
Tern Lane,,,
Readings of the week,,,
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,standby,live,5.02 VDC
`,
    reads: GOOD,
  },
  {
    name: 'a note of several lines in a cell',
    log: `
repair,point,stage,reading,note
T-0001,bulk,live,388.4 VDC,"first line
second line, with a comma
third"
T-0001,standby,live,5.02 VDC,
`,
    reads: GOOD,
  },
  {
    name: 'a header of several lines in its cells',
    log: `
repair,"test
point",stage,"reading
(V DC)"
T-0001,bulk,live,388.4
T-0001,standby,live,5.02
`,
    reads: GOOD,
    answers: { columns: {} },
  },
  {
    name: 'a cell of two lines in the middle of the row',
    log: `
repair;point;note;stage;reading
T-0001;bulk;"warm
10 min";live;388,4 VDC
T-0001;standby;;live;5,02 VDC
`,
    reads: GOOD,
  },
  {
    name: 'notes behind the table',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,standby,live,5.02 VDC

All measured with M1.
Board warm for ten minutes.
`,
    reads: GOOD,
  },
  {
    name: 'a signature behind the table',
    log: `
repair;point;stage;reading
T-0001;bulk;live;388,4 VDC
T-0001;standby;live;5,02 VDC
;;;
Checked by the second bench;;;
`,
    reads: GOOD,
  },
  {
    name: 'a second table with other units below',
    log: `
repair,point,stage,reading (V DC)
T-0001,bulk,live,388.4
T-0001,standby,live,5.02

repair,point,stage,reading (mV DC)
T-0001,sense,live,45.3
`,
    // The second header states another unit: its rows are never read by the first.
    reads: GOOD,
    aside: { 6: /./ },
  },
  {
    name: 'a second table with other columns below',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,standby,live,5.02 VDC
point,repair,reading,stage
sense,T-0002,45.3 mVDC,live
`,
    reads: GOOD,
    aside: { 5: /./ },
  },
  {
    name: 'a second block of a logger whose unit changed',
    log: `
repair;point;stage;value;unit
T-0001;bulk;live;388,4;V DC
T-0001;standby;live;5,02;V DC
repair;point;stage;value;unit
T-0002;sense;live;45,3;mV DC
`,
    reads: `${GOOD}
- | T-0002 | sense |  | 45.3 mV`,
  },
  {
    name: 'whole lines in quotation marks',
    log: `
"repair,point,stage,reading"
"T-0001,bulk,live,388.4 VDC"
"T-0001,standby,live,5.02 VDC"
`,
    reads: GOOD,
  },
  {
    name: 'whole lines in quotation marks with cells quoted within',
    log: `
"repair,point,stage,reading"
"T-0001,""bulk"",live,""388.4 VDC"""
"T-0001,""standby"",live,""5.02 VDC"""
`,
    reads: GOOD,
  },
  {
    name: 'whole lines in quotation marks with semicolons',
    log: `
"repair;point;stage;reading"
"T-0001;bulk;live;388,4 VDC"
"T-0001;standby;live;5,02 VDC"
`,
    reads: GOOD,
  },
  {
    name: 'a quotation mark that is never closed',
    log: `
repair,point,stage,reading,note
T-0001,bulk,live,388.4 VDC,
T-0001,standby,live,5.02 VDC,
T-0002,bulk,live,389.0 VDC,"looks burnt
T-0002,standby,live,5.01 VDC,
`,
    reads: `${GOOD}
- | T-0002 | standby |  | 5.01 V`,
    aside: { 4: /quotation mark/ },
  },
  {
    name: 'inches written with a quotation mark',
    log: `
repair,point,stage,reading,note
T-0001,bulk,live,388.4 VDC,32" set
T-0001,standby,live,5.02 VDC,48" set
`,
    reads: GOOD,
  },
];

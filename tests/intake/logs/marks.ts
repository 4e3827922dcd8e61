import type { LogCase } from './log-case.ts';

/** Decimal marks, thousands, shields and signs. Groups of three by narrow blanks: the SI Brochure, 5.4.4. */
export const marks: readonly LogCase[] = [
  {
    name: 'both decimal marks where each cell can mean one thing only',
    log: `
repair;point;stage;reading;unit
T-0001;bulk;live;388,4;V DC
T-0001;standby;live;5.02;V DC
T-0002;bulk;live;389,0;V DC
T-0002;standby;live;5.1;V DC
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V
- | T-0002 | bulk    |      | 389 V
- |        | standby |      | 5.1 V`,
  },
  {
    name: 'both decimal marks, one cell of which can mean two things',
    log: `
repair;point;stage;reading;unit
T-0001;bulk;live;388,4;V DC
T-0001;standby;live;5.02;V DC
T-0002;Q1 D-S;part out;1.234;Ω
`,
    asks: ['decimal mark'],
    answers: { decimalMark: ',' },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
    aside: { 4: /1\.234/ },
  },
  {
    name: 'a decimal comma in quotation marks among decimal points',
    log: `
repair,point,stage,reading,unit
T-0001,bulk,live,388.4,V DC
T-0001,standby,live,"5,02",V DC
T-0001,12V main,live,12.05,V DC
`,
    reads: `
- | T-0001 | bulk     | live | 388.4 V
- |        | standby  |      | 5.02 V
- |        | 12V main |      | 12.05 V`,
  },
  {
    name: 'numbers that may have decimals or thousands',
    log: `
repair;point;stage;reading;unit
T-0001;Q1 D-S;part out;1.234;Ω
T-0002;Q1 D-S;part out;2.345;Ω
`,
    asks: ['decimal mark'],
    answers: { decimalMark: ',' },
    reads: `
- | T-0001 | Q1 D-S | part out | 1234 Ω
- | T-0002 |        |          | 2345 Ω`,
  },
  {
    name: 'thousands by apostrophes and by blanks',
    log: `
repair;point;stage;reading;unit
T-0001;Q1 D-S;part out;1'234,5;Ω
T-0002;Q1 D-S;part out;12 345,5;Ω
T-0003;Q1 D-S;part out;1\u202f234,5;Ω
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 1234.5 Ω
- | T-0002 |        |          | 12345.5 Ω
- | T-0003 |        |          | 1234.5 Ω`,
  },
  {
    name: 'an apostrophe before text, as a spreadsheet keeps it',
    log: `
repair,point,stage,reading,unit
'000124,bulk,live,'388.4,V DC
'000125,bulk,live,'389.0,V DC
`,
    answers: { columns: {} },
    reads: `
- | 000124 | bulk | live | 388.4 V
- | 000125 |      |      | 389 V`,
  },
  {
    name: 'shielded repairs with plain readings',
    log: `
Repair;Point;Stage;Reading;Unit
="0001";bulk;live;388,4;V DC
="0002";bulk;live;389,0;V DC
="0010";bulk;live;387,0;V DC
`,
    reads: `
- | 0001 | bulk | live | 388.4 V
- | 0002 |      |      | 389 V
- | 0010 |      |      | 387 V`,
  },
  {
    name: 'shields written as CSV writes quotation marks',
    log: `
repair,point,stage,reading
"=""000124""",bulk,live,"=""388.4 VDC"""
"=""000125""",bulk,live,"=""389.0 VDC"""
`,
    reads: `
- | 000124 | bulk | live | 388.4 V
- | 000125 |      |      | 389 V`,
  },
  {
    name: 'brackets around a number with its unit',
    log: `
repair;point;stage;reading
T-0001;neg rail;live;(12,3 V DC)
T-0001;12V main;live;12,1 V DC
T-0001;neg sense;live;(0,45) V DC
`,
    reads: `
- | T-0001 | neg rail  | live | -12.3 V
- |        | 12V main  |      | 12.1 V
- |        | neg sense |      | -0.45 V`,
  },
  {
    name: 'dashes of all lengths for minus',
    log: `
repair,point,stage,reading
T-0001,neg rail,live,–12.3 VDC
T-0002,neg rail,live,- 12.1 VDC
T-0003,neg rail,live,﹣12.2 VDC
`,
    reads: `
- | T-0001 | neg rail | live | -12.3 V
- | T-0002 |          |      | -12.1 V
- | T-0003 |          |      | -12.2 V`,
  },
  {
    name: 'full-width digits of an East Asian keyboard',
    log: `
repair,point,stage,reading
T-0001,bulk,live,３８８．４ VDC
T-0002,bulk,live,389.0 VDC
`,
    reads: `
- | T-0001 | bulk | live | 388.4 V
- | T-0002 |      |      | 389 V`,
  },
  {
    name: 'Arabic digits and their decimal mark',
    log: `
repair;point;stage;reading
T-0001;bulk;live;٣٨٨٫٤ VDC
T-0002;bulk;live;389.0 VDC
`,
    reads: `
- | T-0001 | bulk | live | 388.4 V
- | T-0002 |      |      | 389 V`,
  },
  {
    name: 'a power of ten as spreadsheets and loggers write it',
    log: `
repair,point,stage,reading,unit
T-0001,bulk,live,3.884E+02,V DC
T-0001,C9,part out,4.7E-05,F
T-0001,Q1 D-S,part out,9.9E+37,Ω
`,
    // 9.9E+37 is what many loggers send for overload: common practice, no source.
    reads: `
- | T-0001 | bulk   | live     | 388.4 V
- |        | C9     | part out | 47 µF
- |        | Q1 D-S |          | OL Ω`,
  },
  {
    name: 'ditto marks under a repair',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
",standby,live,5.02 VDC
`,
    // The quotation mark opens a cell that is never closed: it must be named, and nothing may be taken from it.
    reads: `
- | T-0001 | bulk | live | 388.4 V`,
    aside: { 3: /quotation mark/ },
  },
  {
    name: 'about and tilde before a number',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0002,bulk,live,~389 VDC
T-0003,bulk,live,ca. 387 VDC
`,
    // An estimate is not what the meter showed.
    reads: `
- | T-0001 | bulk | live | 388.4 V`,
    aside: { 3: /~389/, 4: /387/ },
  },
  {
    name: 'two numbers in one cell',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0002,bulk,live,388-391 VDC
T-0003,bulk,live,12.1 / 12.3 VDC
`,
    reads: `
- | T-0001 | bulk | live | 388.4 V`,
    aside: { 3: /388-391/, 4: /12\.1/ },
  },
];

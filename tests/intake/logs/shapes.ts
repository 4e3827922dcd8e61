import type { LogCase } from './log-case.ts';

const GOOD = `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`;

/** Columns by blanks and colons, headers without rows, totals, unfinished last lines. Common practice, no source. */
export const shapes: readonly LogCase[] = [
  {
    name: 'columns aligned by blanks',
    log: `
repair   point     stage   reading   unit
T-0001   bulk      live    388.4     V
T-0001   standby   live    5.02      V
`,
    answers: { given: { mode: 'DC volts' } },
    reads: GOOD,
  },
  {
    name: 'columns aligned by blanks with names of two words',
    log: `
repair   point        stage         reading
T-0001   backlight A  live          186.2 VDC
T-0001   Q1 D-S       as received   640 kΩ
`,
    reads: `
- | T-0001 | backlight A | live        | 186.2 V
- |        | Q1 D-S      | as received | 640 kΩ`,
  },
  {
    name: 'columns aligned by blanks, numbers to the right',
    log: `
time                  repair   12V main (V DC)
2026-11-03 08:12:00   T-0001             12.06
2026-11-03 08:13:00   T-0001              9.95
`,
    answers: { given: { stage: 'run-in' } },
    reads: `
2026-11-03 08:12 | T-0001 | 12V main | run-in | 12.06 V
08:13            |        |          |        | 9.95 V`,
  },
  {
    name: 'a colon between the cells',
    log: `
repair:point:stage:reading
T-0001:bulk:live:388.4 VDC
T-0001:standby:live:5.02 VDC
`,
    answers: { separator: ':' },
    reads: GOOD,
  },
  {
    name: 'a colon between the cells and a decimal comma',
    log: `
repair:point:stage:reading:unit
T-0001:bulk:live:388,4:V DC
T-0001:standby:live:5,02:V DC
`,
    answers: { separator: ':' },
    reads: GOOD,
  },
  {
    name: 'a colon between the cells of a wide sheet',
    log: `
repair:bulk (V DC):standby (V DC)
T-0001:388.4:5.02
`,
    answers: { separator: ':', given: { stage: 'live' } },
    reads: GOOD,
  },
  { name: 'a header and no rows', log: '\nrepair,point,stage,reading\n', says: /no rows|header/ },
  { name: 'a header and no rows, with blank lines', log: '\nrepair;bulk (V DC);stage\n\n\n', says: /no rows|header/ },
  {
    name: 'a device block, a header and no rows',
    log: '\n# logger B1\ntime,repair,point,stage,reading\n',
    says: /no rows|header/,
  },
  {
    name: 'totals and means under the rows',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,standby,live,5.02 VDC
Mean,,,196.7 VDC
Total,,,393.4 VDC
`,
    reads: GOOD,
  },
  {
    name: 'a mean in the column of points',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,standby,live,5.02 VDC
,Average,,196.7 VDC
`,
    reads: GOOD,
  },
  {
    name: 'totals in the language of the spreadsheet',
    log: `
repair;bulk (V DC);standby (V DC)
T-0001;388,4;5,02
Summe;388,4;5,02
Mittelwert;388,4;5,02
`,
    answers: { given: { stage: 'live' } },
    reads: GOOD,
  },
  {
    name: 'a last line that ends in the middle of a number',
    log: 'repair,point,stage,reading\nT-0001,bulk,live,388.4 VDC\nT-0001,standby,live,5.02 VDC\nT-0002,bulk,live,38',
    reads: GOOD,
    aside: { 4: /line end|unfinished|ends/ },
  },
  {
    name: 'a last line that looks whole and has no line end',
    log: 'repair,stage,point,mode,reading\nT-0001,live,bulk,DC volts,388.4\nT-0001,live,standby,DC volts,5.02\nT-0002,live,bulk,DC volts,38',
    // 38 may be the beginning of 388.4: the row waits for its line end.
    reads: GOOD,
    aside: { 4: /line end|unfinished|ends/ },
  },
  {
    name: 'a last line without its last cells',
    log: 'repair;point;stage;reading;unit\nT-0001;bulk;live;388,4;V DC\nT-0001;standby;live;5,02;V DC\nT-0002;bul',
    reads: GOOD,
    aside: { 4: /./ },
  },
  {
    name: 'separators at the end of every line',
    log: `
repair,point,stage,reading,,,
T-0001,bulk,live,388.4 VDC,,,
T-0001,standby,live,5.02 VDC,,,
`,
    reads: GOOD,
  },
  {
    name: 'an empty first column and row of a sheet that begins at B2',
    log: `
,,,,
,repair,point,stage,reading
,T-0001,bulk,live,388.4 VDC
,T-0001,standby,live,5.02 VDC
`,
    reads: GOOD,
  },
  {
    name: 'a sheet turned by a quarter',
    log: `
repair,T-0001,T-0002
bulk (V DC),388.4,389.0
standby (V DC),5.02,5.01
`,
    // Points are rows and repairs are columns: not read as a table of rows, but asked about.
    asks: ['columns'],
    aside: { 2: /./, 3: /./ },
  },
  {
    name: 'a line with one cell too many, from a comma in a note',
    log: `
repair,point,stage,reading,note
T-0001,bulk,live,388.4 VDC,warm
T-0001,standby,live,5.02 VDC,warm, ten minutes
T-0002,bulk,live,1,234 VDC,warm
`,
    reads: `
- | T-0001 | bulk | live | 388.4 V`,
    aside: { 3: /cells/, 4: /cells/ },
  },
];

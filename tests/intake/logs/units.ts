import type { LogCase } from './log-case.ts';

/** Units and prefixes in disguise: the SI Brochure for prefixes, IEC 60062 for marks such as 4K7, the rest common practice without a source. */
export const units: readonly LogCase[] = [
  {
    name: 'upper-case logger, M for milli',
    log: `
REPAIR,POINT,STAGE,READING
T-0001,R SENSE,LIVE,45.3 MVDC
T-0001,STANDBY,LIVE,5.02 VDC
T-0002,R SENSE,LIVE,44.9 MVDC
`,
    asks: ['columns'],
    answers: { columns: { READING: { field: 'reading' } } },
    reads: `
- | T-0001 | STANDBY | live | 5.02 V`,
    aside: { 2: /mega|milli|MV/i, 4: /mega|milli|MV/i },
  },
  {
    name: 'mega-amperes, which no bench shows',
    log: `
repair,point,stage,mode,reading,unit
T-0001,standby,live,current,12.4,MA
T-0002,standby,live,current,12.9,MA
`,
    aside: { 2: /MA|mega|milli/, 3: /MA|mega|milli/ },
  },
  {
    name: 'milliohms at a point of megohms',
    log: `
repair,point,stage,reading
T-0001,Q1 D-S,part out,1.2 MΩ
T-0002,Q1 D-S,part out,1.3 MΩ
T-0003,Q1 D-S,part out,1.1 MΩ
T-0004,Q1 D-S,part out,1.2 mΩ
T-0005,Q1 D-S,part out,1.4 MΩ
`,
    says: /line 5|1\.2 mΩ|power|thousand/,
    reads: `
- | T-0001 | Q1 D-S | part out | 1.2 MΩ
- | T-0002 |        |          | 1.3 MΩ
- | T-0003 |        |          | 1.1 MΩ
- | T-0004 |        |          | 1.2 mΩ
- | T-0005 |        |          | 1.4 MΩ`,
  },
  {
    name: 'microfarads as MFD, UF and mfd',
    log: `
repair,point,stage,reading
T-0001,C9,part out,47.1 UF
T-0002,C9,part out,46.8 MFD
T-0003,C9,part out,44 mfd
T-0004,C9,part out,47.0 uF
`,
    reads: `
- | T-0001 | C9 | part out | 47.1 µF
- | T-0002 |    |          | 46.8 µF
- | T-0003 |    |          | 44 µF
- | T-0004 |    |          | 47 µF`,
  },
  {
    name: 'nanofarads in capitals in a column of units',
    log: `
Repair;Point;Stage;Value;Unit
T-0001;C12;part out;99,8;NF
T-0002;C12;part out;101;NF
T-0003;C9;part out;47;UF
`,
    reads: `
- | T-0001 | C12 | part out | 99.8 nF
- | T-0002 |     |          | 101 nF
- | T-0003 | C9  |          | 47 µF`,
  },
  {
    name: 'both micro signs and a u',
    log: `
repair,point,stage,reading
T-0001,C9,part out,47.1 \u00b5F
T-0002,C9,part out,46.8 \u03bcF
T-0003,C9,part out,47.2 u F
`,
    reads: `
- | T-0001 | C9 | part out | 47.1 µF
- | T-0002 |    |          | 46.8 µF
- | T-0003 |    |          | 47.2 µF`,
  },
  {
    name: 'Cyrillic units beside the values',
    log: `
ремонт;точка;этап;значение;единица
T-0001;bulk;live;388,4;В
T-0001;Q1 D-S;part out;640;кОм
T-0001;C9;part out;47;мкФ
T-0001;standby;live;12,5;мА
`,
    answers: {
      given: { mode: 'DC volts' },
      columns: {
        ремонт: { field: 'repair' },
        точка: { field: 'point' },
        этап: { field: 'stage' },
        значение: { field: 'reading' },
        единица: { field: 'unit' },
      },
    },
    reads: `
- | T-0001 | bulk    | live     | 388.4 V
- |        | Q1 D-S  | part out | 640 kΩ
- |        | C9      |          | 47 µF
- |        | standby | live     | 12.5 mA`,
  },
  {
    name: 'Cyrillic units inside the cells',
    log: `
repair;point;stage;reading
T-0001;Q1 D-S;part out;640 кОм
T-0001;Q2 D-S;part out;1,2 МОм
T-0001;R7;part out;0,33 Ом
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 640 kΩ
- |        | Q2 D-S |          | 1.2 MΩ
- |        | R7     |          | 0.33 Ω`,
  },
  {
    name: 'Cyrillic volts in headers',
    log: `
repair;bulk, В;R sense, мОм
T-0001;388,4;220
T-0002;389,0;221
`,
    answers: { given: { stage: 'live', mode: 'DC volts' } },
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | R sense |      | 220 mΩ
- | T-0002 | bulk    |      | 389 V
- |        | R sense |      | 221 mΩ`,
  },
  {
    name: '573k for kilohms where the mode is told',
    log: `
repair,point,stage,mode,reading
T-0001,Q1 D-S,part out,resistance,573k
T-0002,Q1 D-S,part out,resistance,1.2M
T-0003,Q1 D-S,part out,resistance,0.4
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 573 kΩ
- | T-0002 |        |          | 1.2 MΩ
- | T-0003 |        |          | 0.4 Ω`,
  },
  {
    name: '573k and 4K7 where no mode is told',
    log: `
repair,point,stage,reading
T-0001,Q1 D-S,part out,573k
T-0002,R3,part out,4K7
T-0003,Q1 D-S,part out,612 K
`,
    answers: { given: { mode: 'resistance' } },
    reads: `
- | T-0001 | Q1 D-S | part out | 573 kΩ
- | T-0002 | R3     |          | 4.7 kΩ
- | T-0003 | Q1 D-S |          | 612 kΩ`,
  },
  {
    name: 'k in a column in ohms',
    log: `
repair;R Q1 (Ω)
T-0001;573k
T-0002;0,4
T-0003;1,2M
`,
    answers: { given: { stage: 'part out' } },
    reads: `
- | T-0001 | R Q1 | part out | 573 kΩ
- | T-0002 |      |          | 0.4 Ω
- | T-0003 |      |          | 1.2 MΩ`,
  },
  {
    name: 'the prefix in a column of its own',
    log: `
repair,point,stage,value,prefix,unit
T-0001,Q1 D-S,part out,573,k,Ohm
T-0001,Q2 D-S,part out,1.2,M,Ohm
T-0001,C9,part out,47,µ,F
T-0001,R7,part out,0.33,,Ohm
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 573 kΩ
- |        | Q2 D-S |          | 1.2 MΩ
- |        | C9     |          | 47 µF
- |        | R7     |          | 0.33 Ω`,
  },
  {
    name: 'the prefix in a column whose name says nothing',
    log: `
Repair;Point;Stage;Value;x;Unit
T-0001;Q1 D-S;part out;573;k;Ω
T-0002;Q1 D-S;part out;560;k;Ω
T-0003;Q1 D-S;part out;1,2;M;Ω
`,
    answers: { columns: {} },
    reads: `
- | T-0001 | Q1 D-S | part out | 573 kΩ
- | T-0002 |        |          | 560 kΩ
- | T-0003 |        |          | 1.2 MΩ`,
  },
  {
    name: 'a range beside the value, which is shown in the unit of the range',
    log: `
repair,point,stage,mode,value,range
T-0001,Q1 D-S,part out,resistance,0.573,6 MΩ
T-0002,Q1 D-S,part out,resistance,573.1,600 kΩ
T-0003,Q1 D-S,part out,resistance,0.4,600 Ω
`,
    // Whether the value counts in the range's prefix is the meter's habit: nobody can know.
    asks: ['columns'],
    aside: {},
    answers: { columns: { range: { field: 'unit' } } },
    reads: `
- | T-0001 | Q1 D-S | part out | 0.573 MΩ
- | T-0002 |        |          | 573.1 kΩ
- | T-0003 |        |          | 0.4 Ω`,
  },
  {
    name: 'AUTO in the column of modes',
    log: `
repair,point,stage,mode,reading,unit
T-0001,bulk,live,AUTO,388.4,V DC
T-0001,Q1 D-S,part out,AUTO,640,kΩ
T-0001,C9,part out,AUTO,47,µF
`,
    reads: `
- | T-0001 | bulk   | live     | 388.4 V
- |        | Q1 D-S | part out | 640 kΩ
- |        | C9     |          | 47 µF`,
  },
  {
    name: 'Auto and Manual in the column of modes',
    log: `
repair;point;stage;mode;reading
T-0001;bulk;live;Auto;388,4 VDC
T-0001;standby;live;Manual;5,02 VDC
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
  },
  {
    name: 'AUTO in the column of ranges',
    log: `
repair,point,stage,function,range,reading
T-0001,bulk,live,DCV,AUTO,388.4
T-0001,standby,live,DCV,AUTO,5.02
T-0001,Q1 D-S,part out,RES,AUTO,640
`,
    reads: `
- | T-0001 | bulk    | live     | 388.4 V
- |        | standby |          | 5.02 V
- |        | Q1 D-S  | part out | 640 Ω`,
  },
];

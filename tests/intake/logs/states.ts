import type { LogCase } from './log-case.ts';

/** What a meter shows where a number has no place, in the value's cell or beside it. Words of meters: common practice, no source. */
export const states: readonly LogCase[] = [
  {
    name: 'OL in a status column beside the value',
    log: `
repair,point,stage,value,unit,status
T-0001,Q1 D-S,as received,0.3,Ω,
T-0001,Q2 D-S,as received,60.00,MΩ,OL
T-0001,D1,as received,640.0,kΩ,
`,
    reads: `
- | T-0001 | Q1 D-S | as received | 0.3 Ω
- |        | Q2 D-S |             | OL 60 MΩ
- |        | D1     |             | 640 kΩ`,
    answers: { columns: {} },
  },
  {
    name: 'an overload flag of 0 and 1',
    log: `
Repair;Point;Stage;Reading;Unit;Overload
T-0001;Q1 D-S;part out;0,3;Ω;0
T-0001;Q2 D-S;part out;9999;Ω;1
T-0001;Q3 D-S;part out;9999;Ω;1
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 0.3 Ω
- |        | Q2 D-S |          | OL Ω
- |        | Q3 D-S |          | OL Ω`,
  },
  {
    name: 'a remark column that says open',
    log: `
repair,point,stage,ohms,remark
T-0001,F1,as received,0.2,good
T-0001,F2,as received,0.0,open
T-0001,R7,as received,0.33,
`,
    // 0.0 Ω and “open” contradict each other: nobody but the technician knows which holds.
    asks: ['columns'],
    answers: { columns: {} },
    reads: `
- | T-0001 | F1 | as received | 0.2 Ω
- |        | R7 |             | 0.33 Ω`,
    aside: { 3: /open|remark/ },
  },
  {
    name: 'words for over-range of all kinds',
    log: `
repair,point,stage,mode,reading
T-0001,Q1 D-S,part out,resistance,OFL
T-0001,Q2 D-S,part out,resistance,OUT OF RANGE
T-0001,Q3 D-S,part out,resistance,Open
T-0001,Q4 D-S,part out,resistance,≥40 MΩ
T-0001,Q5 D-S,part out,resistance,> 40 MΩ
T-0001,Q6 D-S,part out,resistance,O.L MΩ
`,
    reads: `
- | T-0001 | Q1 D-S | part out | OL Ω
- |        | Q2 D-S |          | OL Ω
- |        | Q3 D-S |          | OL Ω
- |        | Q4 D-S |          | OL 40 MΩ
- |        | Q5 D-S |          | OL 40 MΩ
- |        | Q6 D-S |          | OL Ω`,
  },
  {
    name: 'a bare OL whose mode the other rows of its point tell',
    log: `
repair,point,stage,reading
T-0001,Q1 D-S,part out,0.3 Ω
T-0002,Q1 D-S,part out,OL
T-0003,Q1 D-S,part out,1.2 MΩ
T-0004,Q1 D-S,part out,OL
`,
    reads: `
- | T-0001 | Q1 D-S | part out | 0.3 Ω
- | T-0002 |        |          | OL Ω
- | T-0003 |        |          | 1.2 MΩ
- | T-0004 |        |          | OL Ω`,
  },
  {
    name: 'a bare OL whose mode nothing tells',
    log: `
repair,point,stage,reading
T-0001,bulk,live,388.4 VDC
T-0001,D1,part out,OL
T-0001,standby,live,5.02 VDC
`,
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V`,
    aside: { 3: /mode/ },
  },
  {
    name: 'a number and a beep in one cell',
    log: `
repair,point,stage,reading
T-0001,F1,as received,0.3 Ω BEEP
T-0001,F2,as received,0.2 Ω (beep)
T-0001,Q1 D-S,as received,12.4 Ω beep
T-0001,Q2 D-S,as received,640 Ω
`,
    reads: `
- | T-0001 | F1     | as received | 0.3 Ω cont
- |        | F2     |             | 0.2 Ω cont
- |        | Q1 D-S |             | 12.4 Ω cont
- |        | Q2 D-S |             | 640 Ω`,
  },
  {
    name: 'beep, buzz and silence in a mode column of continuity',
    log: `
repair;point;stage;mode;reading
T-0001;F1;as received;continuity;beep
T-0001;F2;as received;continuity;no beep
T-0001;F3;as received;continuity;OL
`,
    reads: `
- | T-0001 | F1 | as received | beep
- |        | F2 |             | no beep
- |        | F3 |             | OL Ω cont`,
  },
  {
    name: 'a lone 1. on a 3½-digit meter',
    // The bare leading 1 of a 3½-digit meter is over-range: common practice, no source.
    log: `
repair,point,stage,mode,reading
T-0001,Q1 D-S,part out,resistance,1.
T-0002,Q1 D-S,part out,resistance,0.35
T-0003,Q1 D-S,part out,resistance,0.41
T-0004,Q1 D-S,part out,resistance,1.
`,
    reads: `
- | T-0001 | Q1 D-S | part out | OL Ω
- | T-0002 |        |          | 0.35 Ω
- | T-0003 |        |          | 0.41 Ω
- | T-0004 |        |          | OL Ω`,
  },
  {
    name: '1. among 5. and 12., where a spreadsheet left the mark',
    log: `
repair,point,stage,mode,reading
T-0001,R1,part out,resistance,1.
T-0001,R2,part out,resistance,5.
T-0001,R3,part out,resistance,12.
T-0001,R4,part out,resistance,47.
`,
    reads: `
- | T-0001 | R1 | part out | 1 Ω
- |        | R2 |          | 5 Ω
- |        | R3 |          | 12 Ω
- |        | R4 |          | 47 Ω`,
  },
  {
    name: 'minus in brackets, as bookkeepers write it',
    log: `
repair,point,stage,reading,unit
T-0001,neg rail,live,(12.3),V DC
T-0001,12V main,live,12.1,V DC
T-0001,neg sense,live,(0.45),V DC
`,
    reads: `
- | T-0001 | neg rail  | live | -12.3 V
- |        | 12V main  |      | 12.1 V
- |        | neg sense |      | -0.45 V`,
  },
  {
    name: 'a sign in a column of its own',
    log: `
repair,point,stage,sign,reading,unit
T-0001,neg rail,live,-,12.3,V DC
T-0001,12V main,live,+,12.1,V DC
T-0001,standby,live,+,5.02,V DC
`,
    reads: `
- | T-0001 | neg rail | live | -12.3 V
- |        | 12V main |      | 12.1 V
- |        | standby  |      | 5.02 V`,
  },
  {
    name: 'minus at the end and true minus signs',
    log: `
repair;point;stage;reading;unit
T-0001;neg rail;live;12,3-;V DC
T-0001;neg sense;live;−0,45;V DC
T-0001;12V main;live;12,1;V DC
`,
    reads: `
- | T-0001 | neg rail  | live | -12.3 V
- |        | neg sense |      | -0.45 V
- |        | 12V main  |      | 12.1 V`,
  },
  {
    name: 'numbers shielded from the spreadsheet',
    log: `
repair,point,stage,reading,unit
="000124",bulk,live,="388.4",V DC
="000125",bulk,live,="389.0",V DC
`,
    reads: `
- | 000124 | bulk | live | 388.4 V
- | 000125 |      |      | 389 V`,
  },
];

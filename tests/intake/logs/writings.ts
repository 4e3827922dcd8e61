import { oneByte, type LogCase } from './log-case.ts';

const LATIN = { µ: 0xb5, é: 0xe9, ü: 0xfc, ä: 0xe4, '°': 0xb0, '±': 0xb1 };
/** Code page 850, from memory. */
const OLD_PAGE = { µ: 0xe6, é: 0x82, ü: 0x81, ä: 0x84, ö: 0x94, '°': 0xf8, '±': 0xf1 };

function withBytes(log: string, bytes: Readonly<Record<string, number>>): Pick<LogCase, 'log' | 'bytes'> {
  return { log, bytes: oneByte(log, bytes) };
}

/** UTF-8 but for the marked characters, each of which becomes the one byte stated. */
function brokenUtf8(log: string, bytes: Readonly<Record<string, number>>): Pick<LogCase, 'log' | 'bytes'> {
  const parts = Array.from(log.replace(/^\n/, '')).map((character) => {
    const byte = bytes[character];
    return byte === undefined ? Array.from(new TextEncoder().encode(character)) : [byte];
  });
  return { log, bytes: Uint8Array.from(parts.flat()) };
}

/** Encodings of the bench's old and new machines. */
export const writings: readonly LogCase[] = [
  {
    name: 'one byte that is not UTF-8 in a note',
    ...brokenUtf8(
      `
repair,point,stage,reading,note
T-0001,bulk,live,388.4 VDC,für später
T-0001,C9,part out,47 µF,gut
T-0002,bulk,live,389.0 VDC,§
`,
      { '§': 0xff },
    ),
    says: /decoded|UTF-8/,
    reads: `
- | T-0001 | bulk | live     | 388.4 V
- |        | C9   | part out | 47 µF
- | T-0002 | bulk | live     | 389 V`,
  },
  {
    name: 'one byte that is not UTF-8 in a reading',
    ...brokenUtf8(
      `
repair,point,stage,reading
T-0001,C9,part out,47 µF
T-0001,C10,part out,22 §F
T-0001,R7,part out,0.33 Ω
`,
      { '§': 0xb5 },
    ),
    // B5 is the micro sign of an older encoding, but in this file it is damage: no prefix is made up.
    reads: `
- | T-0001 | C9 | part out | 47 µF
- |        | R7 |          | 0.33 Ω`,
    aside: { 3: /decoded|character|unit|UTF-8/ },
  },
  {
    name: 'one byte that is not UTF-8 in the name of a point',
    ...brokenUtf8(
      `
repair,point,stage,reading
T-0001,Σ5,live,5.02 VDC
T-0001,b§lk,live,388.4 VDC
T-0002,Σ5,live,5.01 VDC
`,
      { '§': 0xe9 },
    ),
    reads: `
- | T-0001 | Σ5 | live | 5.02 V
- | T-0002 |    |      | 5.01 V`,
    aside: { 3: /decoded|character|UTF-8/ },
  },
  {
    name: 'an old one-byte file with a micro sign',
    ...withBytes(
      `
repair;point;stage;reading
T-0001;C9;part out;47,1 µF
T-0002;C9;part out;46,8 µF
`,
      LATIN,
    ),
    says: /encoding|windows-1252/,
    reads: `
- | T-0001 | C9 | part out | 47.1 µF
- | T-0002 |    |          | 46.8 µF`,
  },
  {
    name: 'an old one-byte file with names of points',
    ...withBytes(
      `
repair;point;stage;reading
T-0001;Rückwand;live;388,4 VDC
T-0002;Rückwand;live;389,0 VDC
`,
      LATIN,
    ),
    says: /encoding|windows-1252/,
    reads: `
- | T-0001 | Rückwand | live | 388.4 V
- | T-0002 |          |      | 389 V`,
  },
  {
    name: 'an old page with a micro sign that looks like another letter',
    ...withBytes(
      `
repair;point;stage;reading
T-0001;C9;part out;47,1 µF
T-0002;C9;part out;46,8 µF
`,
      OLD_PAGE,
    ),
    // Taken as Western letters the byte E6 is “æ”, which is no prefix: asked about, or set aside, never taken as farads.
    asks: ['encoding'],
    answers: { encoding: 'cp850' },
    reads: `
- | T-0001 | C9 | part out | 47.1 µF
- | T-0002 |    |          | 46.8 µF`,
  },
  {
    name: 'an old page with accents in names',
    ...withBytes(
      `
repair;point;stage;reading
T-0001;Gerät;live;388,4 VDC
T-0002;Brücke;live;389,0 VDC
`,
      OLD_PAGE,
    ),
    asks: ['encoding'],
    answers: { encoding: 'cp850' },
    reads: `
- | T-0001 | Gerät  | live | 388.4 V
- | T-0002 | Brücke |      | 389 V`,
  },
  {
    name: 'an old page in the header alone',
    ...withBytes(
      `
repair;Brücke (V DC);Lüfter (V DC)
T-0001;388,4;12,1
T-0002;389,0;12,0
`,
      OLD_PAGE,
    ),
    asks: ['encoding'],
    answers: { encoding: 'cp850', given: { stage: 'live' } },
    reads: `
- | T-0001 | Brücke | live | 388.4 V
- |        | Lüfter |      | 12.1 V
- | T-0002 | Brücke |      | 389 V
- |        | Lüfter |      | 12 V`,
  },
  {
    name: 'a byte order mark in the middle, where two files were joined',
    log: `
\ufeffrepair,point,stage,reading
T-0001,bulk,live,388.4 VDC
\ufeffrepair,point,stage,reading
T-0002,bulk,live,389.0 VDC
`,
    reads: `
- | T-0001 | bulk | live | 388.4 V
- | T-0002 |      |      | 389 V`,
  },
  {
    name: 'letters taken twice through UTF-8',
    log: `
repair,point,stage,reading
T-0001,C9,part out,47.1 ÂµF
T-0001,R7,part out,0.33 Î©
T-0001,bulk,live,388.4 VDC
`,
    // “Âµ” is a micro sign that was encoded twice; a careful reader would not swear to it.
    reads: `
- | T-0001 | bulk | live | 388.4 V`,
    aside: { 2: /unit|ÂµF/, 3: /unit|Î/ },
  },
  {
    name: 'no-break spaces and zero-width marks around every cell',
    log: `
repair,point,stage,reading
\u00a0T-0001\u00a0,\u200bbulk,live\u00a0,388.4\u00a0VDC
T-0001,bulk\u200b,\u00a0run-in,\u00a0388.1\u2009VDC
`,
    reads: `
- | T-0001 | bulk | live   | 388.4 V
- |        |      | run-in | 388.1 V`,
  },
  {
    name: 'line ends of three systems in one file',
    log: 'repair,point,stage,reading\r\nT-0001,bulk,live,388.4 VDC\nT-0001,standby,live,5.02 VDC\r\nT-0002,bulk,live,389.0 VDC\n',
    reads: `
- | T-0001 | bulk    | live | 388.4 V
- |        | standby |      | 5.02 V
- | T-0002 | bulk    |      | 389 V`,
  },
];

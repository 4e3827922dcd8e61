import { describe, expect, test } from 'vitest';
import { ENCODINGS, type Encoding } from '../../src/domain/file-plan.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { FileDecoder } from '../../src/intake/text-decoder.ts';
import { bytesOfSample, ENCODING_SAMPLES, type EncodingSample } from './encoding-samples.ts';
import { cellsOf, cellsOfPieces, pieces, planOf, read, utf8 } from './support.ts';

const UNICODE: readonly Encoding[] = ['utf-8', 'utf-16le', 'utf-16be'];

/** A log whose complaints of the meter are in the sample's script; all else is ASCII. */
function logWith(sample: EncodingSample, rows: number): Uint8Array {
  const word = bytesOfSample(sample);
  const parts = [utf8('repair,point,stage,mode,reading,unit,note\n')];
  for (let row = 0; row < rows; row += 1) parts.push(utf8(`T-1,bulk,live,DC volts,38${row}.4,V,`), word, utf8('\n'));
  return new Uint8Array(parts.flatMap((part) => [...part]));
}

describe('encodings that can be chosen', () => {
  test('each have a sample, but for Unicode, whose have tests of their own', () => {
    const sampled = ENCODING_SAMPLES.map(({ encoding }) => encoding);
    expect([...UNICODE, ...sampled].sort()).toEqual([...ENCODINGS].sort());
  });

  test.each(ENCODING_SAMPLES)('$encoding spells $text', (sample) => {
    const decoder = new FileDecoder(sample.encoding);
    expect(decoder.decode(bytesOfSample(sample)) + decoder.end()).toBe(sample.text);
  });

  test.each(ENCODING_SAMPLES)('$encoding breaks no character at the edge of a piece', (sample) => {
    const bytes = logWith(sample, 9);
    const lines = Array.from({ length: 9 }, (_, row) => `T-1,bulk,live,DC volts,38${row}.4,V,${sample.text}\n`);
    const cells = cellsOf(`repair,point,stage,mode,reading,unit,note\n${lines.join('')}`);
    for (const size of [1, 2, 3, 5, 7, 64]) {
      expect(cellsOfPieces(pieces(bytes, size), sample.encoding, ',').rows).toEqual(cells);
    }
  });

  test.each(ENCODING_SAMPLES)('$encoding is read where the technician chooses it', async (sample) => {
    const bytes = logWith(sample, 9);
    const plan = planFile('log.csv', bytes, true, undefined, { encoding: sample.encoding });
    if ('refused' in plan) throw new Error(plan.refused);
    expect(plan).toMatchObject({ encoding: sample.encoding, shape: 'readings' });
    expect(await read(bytes, plan, 3)).toMatchObject({ taken: 9, setAsideRows: 0 });
  });

  test('half a character at the end of a file is shown as one that cannot be read', () => {
    const decoder = new FileDecoder('shift_jis');
    expect(decoder.decode(Uint8Array.of(0x93, 0x64, 0x88)) + decoder.end()).toBe('電\ufffd');
  });
});

describe('a file whose words windows-1252 hardly spells', () => {
  const OTHER_SCRIPTS: readonly Encoding[] = [
    'windows-1251', 'iso-8859-5', 'koi8-r', 'ibm866', 'windows-1256', 'gb18030', 'shift_jis', 'euc-jp', 'euc-kr',
  ]; // prettier-ignore

  test.each(ENCODING_SAMPLES.filter(({ encoding }) => OTHER_SCRIPTS.includes(encoding)))(
    'in $encoding is asked about',
    (sample) => {
      const { encoding, questions } = planOf(logWith(sample, 2));
      expect(encoding).toBe('windows-1252');
      expect(questions.map(({ text }) => text)).toEqual([expect.stringMatching(/choose another encoding/)]);
    },
  );
});

test.each(['Gerät', 'été', '4,7 µF ±20 %', '25 °C', 'Überprüfung', '„gut“', '‚gut‘', '±½°', 'señal'])(
  '%s is what windows-1252 spells, and nothing is asked',
  (word) => {
    const bytes = new Uint8Array([...utf8('repair;point;stage;mode;reading;unit;note\nT-1;bulk;live;DC volts;1;V;'), ...windows1252(word)]); // prettier-ignore
    expect(planOf(bytes)).toMatchObject({ encoding: 'windows-1252', questions: [] });
  },
);

/** A word in windows-1252. */
function windows1252(word: string): number[] {
  const quotes: Readonly<Record<string, number>> = { '‚': 0x82, '„': 0x84, '‘': 0x91, '“': 0x93 };
  return Array.from(word, (character) => quotes[character] ?? character.charCodeAt(0));
}

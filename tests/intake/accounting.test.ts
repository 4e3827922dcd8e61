import { existsSync, readdirSync, readFileSync } from 'node:fs';
import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { HEAD_BYTES } from '../../src/intake/caps.ts';
import { planFile } from '../../src/intake/plan-file.ts';
import { previewFile } from '../../src/intake/preview.ts';
import { cellsOf, cellsOfPieces, expectAccounted, planOf, read, readingsOf, TWO_SENTENCES, utf8 } from './support.ts';

const corpus = new URL('../../../shared/csv-corpus/', import.meta.url);

/** Plans, previews and reads any bytes. */
async function readAny(bytes: Uint8Array): Promise<void> {
  const head = bytes.subarray(0, HEAD_BYTES);
  const plan = planFile('any', head, bytes.length <= HEAD_BYTES);
  if ('refused' in plan) {
    expect(plan.refused).toMatch(TWO_SENTENCES);
    return;
  }
  previewFile('any', head, plan);
  expectAccounted(await read(bytes, plan), cellsOfPieces([bytes], plan.encoding, plan.separator).rows.length);
}

const cell = fc.oneof(
  fc.constantFrom('', 'T-1', 'bulk', 'live', '4.98', '4,98', 'OL', 'V', '#', 'Total', 'time', '2026-03-01', '"', '""', ' ', '1.234', 'repair', 'low', '12..4 V'),
  fc.string({ unit: 'binary', maxLength: 6 }),
); // prettier-ignore
const text = fc
  .array(fc.array(cell, { minLength: 1, maxLength: 6 }), { maxLength: 8 })
  .map((rows) => rows.map((cells) => cells.join(',')).join('\n'));

describe('any bytes are planned, previewed and read, or refused with a sentence', () => {
  test('whatever they are', async () => {
    const bytes = fc.oneof(fc.uint8Array({ maxLength: 80 }), text.map(utf8));
    await fc.assert(fc.asyncProperty(bytes, readAny), { numRuns: 12_000 });
  });

  test.skipIf(!existsSync(corpus))(
    'also where they are public test files, damaged',
    async () => {
      const small = [corpus, new URL('fuzz-seeds/', corpus)].flatMap((folder) =>
        readdirSync(folder, { withFileTypes: true })
          .filter((entry) => entry.isFile() && !/^(?:index|README)/i.test(entry.name))
          .map((entry) => new Uint8Array(readFileSync(new URL(entry.name, folder))).subarray(0, 1024)),
      );
      expect(small.length).toBeGreaterThan(270);
      const damage = fc.array(fc.tuple(fc.nat(1023), fc.nat(255)), { minLength: 1, maxLength: 6 });
      const damaged = fc.tuple(fc.nat(small.length - 1), damage).map(([file, places]) => {
        const bytes = small[file]!.slice();
        for (const [place, byte] of places) if (bytes.length > 0) bytes[place % bytes.length] = byte;
        return bytes;
      });
      await fc.assert(fc.asyncProperty(damaged, readAny), { numRuns: 8000 });
    },
    60_000,
  );
});

test('every record below a header is a reading, set aside with its line and reason, or counted as no data', async () => {
  const head = 'time,repair,point,stage,reading,unit\n';
  const plan = planOf(utf8(`${head}2026-03-01T08:15:30,T-1,bulk,live,4.98,V\n`));
  await fc.assert(
    fc.asyncProperty(text, async (body) => {
      const bytes = utf8(head + body);
      const contents = await read(bytes, plan);
      expectAccounted(contents, cellsOf(new TextDecoder().decode(bytes)).length);
      expect(readingsOf(contents).length).toBe(contents.taken);
    }),
    { numRuns: 10_000 },
  );
});

import fc from '../support/fast-check.ts';
import { expect, test } from 'vitest';
import { bandFault, type Band, type Expectation } from '../../src/domain/band.ts';
import { MODES, STAGES } from '../../src/domain/reading.ts';
import { EMPTY_BENCH } from '../../src/worker/bench/bench-data.ts';
import { bandsText } from '../../src/worker/bench/bands-text.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import type { CallContext } from '../../src/worker/contract/calls.ts';

const context: CallContext = { signal: new AbortController().signal, report: () => undefined };

/** Brings a table of bands in, and writes it anew. */
async function writtenAgain(text: string): Promise<string> {
  const bench = createBench();
  await bench.bringIn(context, [new File([text], 'bands.csv')]);
  return bench.bandsText(context);
}

const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const share = fc.double({ min: 0.001, max: 99, noNaN: true });
const expects: fc.Arbitrary<Expectation> = fc
  .oneof(
    fc.record({ kind: fc.constant('between' as const), low: figure, high: figure }),
    fc.record({ kind: fc.constant('percent' as const), nominal: figure, percent: share }),
    fc.record({ kind: fc.constantFrom('at least' as const, 'open' as const), limit: figure }),
    fc.record({ kind: fc.constantFrom('at most' as const, 'shorted' as const), limit: figure }),
  )
  .filter((one) => bandFault(one) === undefined);
/** Names with quotes, separators, line ends, blanks, lone apostrophes and the first characters of formulas. */
const name = fc.oneof(
  fc.string({ minLength: 1, maxLength: 12, unit: fc.constantFrom(...Array.from('ab1 ,;"\'\t\r\n=+-@\u00a0Ωµ')) }),
  fc.constantFrom('__proto__', 'constructor', "'=1", '5V standby'),
);
const band = fc.record({ family: name, point: name, mode: fc.constantFrom(...MODES), stage: fc.constantFrom(...STAGES), expects, author: name }); // prettier-ignore

test('a table of bands that was brought in is written the same to the byte from then on', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(band, { minLength: 1, maxLength: 4 }), async (drafts) => {
      const bands = drafts.map((draft): Band => ({ ...draft, basis: 'typed in', date: '2026-03-14' }));
      const second = await writtenAgain(bandsText({ ...EMPTY_BENCH, bands }));
      expect(await writtenAgain(second)).toBe(second);
    }),
    { numRuns: 2000 },
  );
});

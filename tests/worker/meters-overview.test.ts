import { expect, test } from 'vitest';
import { EMPTY_BENCH, judgeBench } from '../../src/worker/bench/bench-data.ts';
import { metersOverview } from '../../src/worker/bench/meters-overview.ts';
import { examineBench } from '../support/examined-bench.ts';

const judgedOf = (repairs: number) =>
  judgeBench({ ...EMPTY_BENCH, log: examineBench({ seed: 3, repairs, perDay: 40 }).log });

test('the comparison of meters can be stopped half-way', async () => {
  const stop = new AbortController();
  setTimeout(() => {
    stop.abort(new Error('stopped'));
  });
  const overview = metersOverview(judgedOf(9_000), { signal: stop.signal, report: () => undefined });
  await expect(overview).rejects.toThrow('stopped');
});

import { LogBuilder } from '../../src/columns/log-builder.ts';
import { EMPTY_BENCH, judgeBench, type Judged } from '../../src/worker/bench/bench-data.ts';
import { BANDS, METERS } from '../support/bench/scenario.ts';
import { simulateBench } from '../support/bench/simulate.ts';

/** A judged bench of so many invented readings, the same each time. */
export function simulatedJudged(count: number): Judged {
  const builder = new LogBuilder(undefined, count);
  const { readings } = simulateBench({ seed: 1, repairs: Math.ceil(count / 23), perDay: 12 });
  for (const reading of readings) if (builder.count < count) builder.add(reading);
  return judgeBench({ ...EMPTY_BENCH, log: builder.finish(), bands: BANDS, meters: METERS });
}

import fc from './fast-check.ts';
import { MODES, SPECIMENS, STAGES, STATES, type Reading } from '../../src/domain/reading.ts';
import { SHOWN_RANGE, shownRangeFault } from '../../src/domain/shown-range.ts';
import { reading } from './readings.ts';

/** Numbers that a meter can have shown, in the SI unit. @param most - the greatest magnitude */
export function shownNumber(most: number = SHOWN_RANGE.most): fc.Arbitrary<number> {
  return fc
    .double({ min: -most, max: most, noNaN: true })
    .map((number) => (shownRangeFault(number) === undefined ? number : 0));
}

/** Readings of few repairs, points, stages and modes, so that many of them meet; times out of order, some unknown. */
export const readings: fc.Arbitrary<readonly Reading[]> = fc
  .array(
    fc.record({
      time: fc.oneof(
        {
          weight: 8,
          arbitrary: fc.integer({ min: 0, max: 40 }).map((step) => Date.UTC(2026, 2, 14) + step * 5_400_000),
        },
        { weight: 1, arbitrary: fc.constant(NaN) },
      ),
      repair: fc.constantFrom('T-2', 'T-10', 'T-1'),
      family: fc.constantFrom('HERON-48', 'PLOVER-32', ''),
      point: fc.constantFrom('Q1 D→S', 'bulk'),
      stage: fc.constantFrom(...STAGES),
      mode: fc.constantFrom(...MODES.slice(1, 3), 'DC volts' as const),
      specimen: fc.constantFrom(...SPECIMENS),
      state: fc.constantFrom('value' as const, 'value' as const, ...STATES),
      number: fc.oneof(fc.integer({ min: -3, max: 30 }), shownNumber(1e6)),
      decimals: fc.nat(3),
      meter: fc.constantFrom('M1', 'M2'),
    }),
    { maxLength: 60 },
  )
  .map((drawn) =>
    drawn.map(({ number, ...given }, index) =>
      reading({ ...given, value: given.state === 'value' ? number : NaN, origin: { file: 'a.csv', line: index + 2 } }),
    ),
  );

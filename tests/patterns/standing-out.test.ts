import { describe, expect, test } from 'vitest';
import { standingOut } from '../../src/patterns/standing-out.ts';
import { failing, times } from './examined.ts';

describe('standingOut(here, elsewhere)', () => {
  // Fisher's criminal twins (Statistical Methods for Research Workers, 21.02): two-sided p of 2 15 / 10 3, computed by R's fisher.test.
  test("has the two-sided chance of Fisher's exact test of the twins' table", () => {
    const here = times(17, (at) => failing(at < 2 ? ['Q1', 'Q7'] : []));
    const elsewhere = times(13, (at) => failing(at < 10 ? ['Q4'] : []));
    const [contrast] = standingOut(here, elsewhere)!;
    expect(contrast).toMatchObject({
      partClass: 'Q',
      here: { count: 2, repairs: 17 },
      elsewhere: { count: 10, repairs: 13 },
    });
    expect(contrast?.p).toBeCloseTo(0.000536724119143436, 12);
  });

  test('adjusts over the classes, and puts the surest first', () => {
    const here = times(40, (at) => failing(at < 20 ? ['BR1', 'F1'] : ['F1']));
    const contrasts = standingOut(
      here,
      times(40, () => failing(['F3'])),
    )!;
    expect(contrasts.map(({ partClass }) => partClass)).toEqual(['BR', 'F']);
    expect(contrasts[0]?.adjusted).toBeCloseTo(2 * contrasts[0]!.p, 12);
    expect(contrasts[1]).toMatchObject({ p: 1, adjusted: 1 });
  });

  test('cannot tell with one side empty', () => {
    expect(standingOut([], [failing(['Q1'])])).toBeUndefined();
    expect(standingOut([failing(['Q1'])], [])).toBeUndefined();
  });
});

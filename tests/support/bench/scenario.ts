import type { Band } from '../../../src/domain/band.ts';
import type { Family, TestPoint } from '../../../src/domain/family.ts';
import { bandsOf } from './bands.ts';
import { CURLEW } from './families/curlew-60.ts';
import { HERON } from './families/heron-48.ts';
import { PLOVER } from './families/plover-32.ts';
import { SISKIN } from './families/siskin-40.ts';
import type { FamilyModel } from './model.ts';

export { METERS } from './meters.ts';

/** The invented families as the simulation knows them. */
export const FAMILY_MODELS: readonly FamilyModel[] = [PLOVER, HERON, CURLEW, SISKIN];

/** The invented families in the project's own words. */
export const FAMILIES: readonly Family[] = FAMILY_MODELS.map(familyOf);

/** The families for which bands are set; SISKIN-40 is new. */
export const BANDED_FAMILIES: readonly Family[] = [PLOVER, HERON, CURLEW].map(familyOf);

/** Every band that the bench has set. */
export const BANDS: readonly Band[] = [PLOVER, HERON, CURLEW].flatMap(bandsOf);

function familyOf({ name, boost, parts, rails }: FamilyModel): Family {
  const partPoints = parts.map(({ point, designator }): TestPoint => ({ name: point, role: 'part', part: designator }));
  const railPoints = rails.map(({ point, role, rail }): TestPoint => ({
    name: point,
    role,
    ...(rail === undefined ? {} : { rail }),
  }));
  return {
    name,
    boost,
    points: [...partPoints, ...railPoints],
    parts: parts.map(({ designator, nodes }) => ({ designator, nodes })),
  };
}

import { comebacksOf } from './comebacks.ts';
import { isOutOfBand } from '../../domain/verdict.ts';
import { familyNamed, familyNames, type Judged } from './bench-data.ts';
import type { BandsOverview } from '../contract/bands.ts';
import type { FamilyLine } from '../contract/families.ts';
import { repairLines } from './repair-lines.ts';

/** All bands with what they judged, and the checks that have readings and no band. */
export function bandsOverview(judged: Judged): BandsOverview {
  const { data, standard, verdicts } = judged;
  const { names, check } = data.log;
  const readings = new Uint32Array(names.checks.size);
  const outOfBand = new Uint32Array(names.checks.size);
  for (let row = 0; row < data.log.count; row += 1) {
    readings[check[row]!]! += 1;
    if (isOutOfBand(verdicts[row]!)) outOfBand[check[row]!]! += 1;
  }
  const counts = new Map(data.bands.map((band) => [band, { readings: 0, outOfBand: 0 }]));
  const without: BandsOverview['without'][number][] = [];
  for (let code = 0; code < names.checks.size; code += 1) {
    const band = standard.table.bands[code];
    const count = band && counts.get(band);
    if (count) {
      count.readings += readings[code]!;
      count.outOfBand += outOfBand[code]!;
    } else if (readings[code]! > 0) {
      without.push({ ...names.checks.check(code, names.families, names.points), readings: readings[code]! });
    }
  }
  return {
    families: familyNames(data).flatMap((name) => familyNamed(data, name) ?? []),
    bands: [...counts].map(([band, count]) => ({ band, ...count })),
    without,
  };
}

/** One line for each family that a table or a reading names. */
export function familyLines(judged: Judged): readonly FamilyLine[] {
  const lines = repairLines(judged);
  const cameBack = comebacksOf(judged);
  return familyNames(judged.data).map((family) => {
    const own = lines.filter((line) => line.repair.family === family);
    const sum = (count: (line: (typeof own)[number]) => number): number =>
      own.reduce((total, line) => total + count(line), 0);
    return {
      family,
      repairs: own.length,
      readings: sum((line) => line.readings),
      outOfBand: sum((line) => line.outOfBand),
      comebacks: sum((line) => (cameBack.has(line.repair.id) ? 1 : 0)),
      bands: judged.data.bands.filter((band) => band.family === family).length,
    };
  });
}

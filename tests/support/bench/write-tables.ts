import type { Band, Expectation } from '../../../src/domain/band.ts';
import type { Family, TestPoint } from '../../../src/domain/family.ts';
import type { Meter } from '../../../src/domain/meter.ts';
import { engineeringPrefix, prefixSymbol } from '../../../src/domain/prefix.ts';
import { scaleBy } from '../../../src/domain/quantity.ts';
import { MODE_UNITS } from '../../../src/domain/reading.ts';
import type { Repair } from '../../../src/domain/repair.ts';

/** The table of repairs: comma, ISO days, replaced parts separated by a blank; a day that is not known yet is empty. */
export function repairsTable(repairs: readonly Repair[]): string {
  const header = 'repair,family,complaint,received,returned,outcome,parts replaced,comeback of,bench';
  const rows = repairs.map(({ id, family, complaint, received, returned, outcome, replaced, comebackOf, bench }) => {
    const days = [isoDay(received), isoDay(returned)];
    return [id, family, complaint, ...days, outcome, replaced.join(' '), comebackOf ?? '', bench ?? ''].join(',');
  });
  return `${[header, ...rows].join('\n')}\n`;
}

const BAND_COLUMNS = [
  'family', 'boost', 'point', 'role', 'rail', 'part', 'nodes', 'stage', 'mode', 'kind', 'low', 'high', 'nominal', 'percent', 'unit',
  'basis', 'author', 'set on',
]; // prettier-ignore

/** The table of bands, which also declares points, parts and their nodes; a point without a band has an empty kind. */
export function bandsTable(families: readonly Family[], bands: readonly Band[]): string {
  const rows = families.flatMap((family) =>
    family.points.flatMap((point) => {
      const place = placeCells(family, point);
      const own = bands.filter((band) => band.family === family.name && band.point === point.name);
      if (own.length === 0) return [[...place, ...Array<string>(BAND_COLUMNS.length - place.length).fill('')]];
      return own.map((band) => [...place, ...bandCells(band)]);
    }),
  );
  return `${[BAND_COLUMNS, ...rows].map((cells) => cells.join(',')).join('\n')}\n`;
}

function placeCells(family: Family, { name, role, rail, part }: TestPoint): string[] {
  const nodes = family.parts.find(({ designator }) => designator === part)?.nodes ?? [];
  return [family.name, family.boost ? 'yes' : 'no', name, role, rail ?? '', part ?? '', nodes.join('/')];
}

function bandCells({ stage, mode, expects, basis, author, date }: Band): string[] {
  return [stage ?? '', mode, expects.kind, ...figures(expects, MODE_UNITS[mode]), basis, author ?? '', date ?? ''];
}

/** low, high, nominal, percent and their unit. */
function figures(expects: Expectation, unit: string): string[] {
  switch (expects.kind) {
    case 'between': {
      const prefix = engineeringPrefix(expects.high);
      return [plain(expects.low, prefix), plain(expects.high, prefix), '', '', prefixSymbol(prefix) + unit];
    }
    case 'percent': {
      const prefix = engineeringPrefix(expects.nominal);
      return ['', '', plain(expects.nominal, prefix), plain(expects.percent, 0), prefixSymbol(prefix) + unit];
    }
    case 'at least':
    case 'open': {
      const prefix = engineeringPrefix(expects.limit);
      return [plain(expects.limit, prefix), '', '', '', prefixSymbol(prefix) + unit];
    }
    case 'at most':
    case 'shorted': {
      const prefix = engineeringPrefix(expects.limit);
      return ['', plain(expects.limit, prefix), '', '', prefixSymbol(prefix) + unit];
    }
    case 'rectified mains':
      return [plain(expects.below, 0), plain(expects.above, 0), '', '', '%'];
  }
}

/** The table of meters, a row for each range; what holds of the whole meter stands in its first row. */
export function metersTable(meters: readonly Meter[]): string {
  const header = 'meter,mode,range limit,unit,resolution,percent,counts,over-range mark,calibration due';
  const rows = meters.flatMap(({ name, accuracies, overRangeMark = '', calibrationDue = NaN }) =>
    accuracies.map(({ mode, upTo, resolution, percent, counts }, index) => {
      const prefix = engineeringPrefix(upTo);
      const unit = prefixSymbol(prefix) + MODE_UNITS[mode];
      const digit = resolution === undefined ? '' : plain(resolution, prefix);
      const ofMeter = index === 0 ? [overRangeMark, isoDay(calibrationDue)] : ['', ''];
      return [name, mode, plain(upTo, prefix), unit, digit, percent, counts, ...ofMeter].join(',');
    }),
  );
  return `${[header, ...rows].join('\n')}\n`;
}

function plain(value: number, prefix: number): string {
  return String(Number(scaleBy(value, -prefix).toPrecision(12)));
}

function isoDay(time: number): string {
  return Number.isNaN(time) ? '' : new Date(time).toISOString().slice(0, 10);
}

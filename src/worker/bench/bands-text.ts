import type { Band, Expectation } from '../../domain/band.ts';
import { pointFromName, type Family, type Part, type TestPoint } from '../../domain/family.ts';
import { engineeringPrefix, prefixSymbol } from '../../domain/prefix.ts';
import { scaleBy, type Unit } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import { writeRow } from '../../intake/write-row.ts';
import type { BenchData } from './bench-data.ts';

const COLUMNS = [
  'family', 'boost', 'point', 'role', 'rail', 'part', 'nodes', 'stage', 'mode', 'kind', 'low', 'high', 'nominal', 'percent', 'unit',
  'basis', 'author', 'set on',
] as const; // prettier-ignore
type Column = (typeof COLUMNS)[number];
type Cells = Readonly<Partial<Record<Column, string>>>;

/**
 * The bands of a bench with the families, points and parts they belong to, as CSV with commas and decimal points (RFC 4180). Brought in again, the
 * table gives the same families and bands. A point without a band has a row without a kind; a part that no point measures has a row without a point.
 */
export function bandsText(data: BenchData): string {
  const rows = familiesOf(data).flatMap((family) => familyRows(family, data.bands));
  return [COLUMNS, ...rows.map((cells) => COLUMNS.map((name) => cells[name] ?? ''))]
    .map((cells) => `${writeRow(cells, ',')}\r\n`)
    .join('');
}

/** The declared families and those that only a band names, each with the points that only its bands name. */
function familiesOf({ families, bands }: BenchData): readonly Family[] {
  const names = new Set([...families.keys(), ...bands.map((band) => band.family)]);
  return [...names].map((name): Family => {
    const declared = families.get(name) ?? { name, boost: false, points: [], parts: [] };
    const known = new Set(declared.points.map((point) => point.name));
    const others = new Set(bands.flatMap(({ family, point }) => (family === name && !known.has(point) ? [point] : [])));
    return { ...declared, points: [...declared.points, ...[...others].map(pointFromName)] };
  });
}

function familyRows({ name, boost, points, parts }: Family, bands: readonly Band[]): readonly Cells[] {
  const family = { family: name, boost: boost ? 'yes' : 'no' };
  const ofPoints = points.flatMap((point): readonly Cells[] => {
    const place = { ...family, ...pointCells(point, parts) };
    const own = bands.filter((band) => band.family === name && band.point === point.name);
    return own.length === 0 ? [place] : own.map((band) => ({ ...place, ...bandCells(band) }));
  });
  const measured = new Set(points.map((point) => point.part));
  const ofParts = parts
    .filter((part) => !measured.has(part.designator))
    .map((part) => ({ ...family, part: part.designator, nodes: part.nodes.join('/') }));
  const rows = [...ofPoints, ...ofParts];
  return rows.length === 0 ? [family] : rows;
}

function pointCells({ name, role, rail, part }: TestPoint, parts: readonly Part[]): Cells {
  const nodes = parts.find(({ designator }) => designator === part)?.nodes ?? [];
  return { point: name, role, rail: rail ?? '', part: part ?? '', nodes: nodes.join('/') };
}

function bandCells({ stage, mode, expects, basis, author, date }: Band): Cells {
  const figures = figureCells(expects, MODE_UNITS[mode]);
  return { stage: stage ?? '', mode, kind: expects.kind, ...figures, basis, author: author ?? '', 'set on': date ?? '' }; // prettier-ignore
}

function figureCells(expects: Expectation, unit: Unit): Cells {
  switch (expects.kind) {
    case 'between':
      return inUnit({ low: expects.low, high: expects.high }, unit);
    case 'percent':
      return { ...inUnit({ nominal: expects.nominal }, unit), percent: String(expects.percent) };
    case 'at least':
    case 'open':
      return inUnit({ low: expects.limit }, unit);
    case 'at most':
    case 'shorted':
      return inUnit({ high: expects.limit }, unit);
    case 'rectified mains': {
      const mains = expects.mains === undefined ? {} : { nominal: String(expects.mains) };
      return { low: String(expects.below), high: String(expects.above), ...mains, unit: '%' };
    }
  }
}

/** Figures with the prefix of the largest; without a prefix where one would cost a digit. */
function inUnit(figures: Readonly<Partial<Record<'low' | 'high' | 'nominal', number>>>, unit: Unit): Cells {
  const entries = Object.entries(figures);
  const largest = engineeringPrefix(Math.max(...entries.map(([, value]) => Math.abs(value))));
  const prefix = entries.every(([, value]) => figureText(value, largest) !== undefined) ? largest : 0;
  const cells: Cells = Object.fromEntries(
    entries.map(([name, value]) => [name, figureText(value, prefix) ?? String(value)]),
  );
  return { ...cells, unit: prefixSymbol(prefix) + unit };
}

/** A figure without its prefix in at most twelve digits; undefined where that reads back as another number. */
function figureText(value: number, prefix: number): string | undefined {
  const text = String(Number(scaleBy(value, -prefix).toPrecision(12)));
  return Number(`${text}e${prefix}`) === value ? text : undefined;
}

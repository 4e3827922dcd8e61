import type { Dictionary } from '../columns/dictionary.ts';
import type { ColumnUse, FilePlan } from '../domain/file-plan.ts';
import type { Unit } from '../domain/quantity.ts';
import { MODE_UNITS, MODES, STAGES } from '../domain/reading.ts';
import { UnitColumn } from './unit-column.ts';
import { readHeader } from './header-text.ts';
import { parseUnit } from './unit-text.ts';

/** Stands for a mode, a point or a stage that the column does not say. */
export const NONE = -1;

/** A column of readings as the plan, its header and the line of units have it; mode, point and stage as codes. */
export interface ReadingColumn {
  readonly index: number;
  readonly mode: number;
  readonly unit: Unit | undefined;
  readonly prefix: number;
  readonly point: number;
  readonly stage: number;
  /** Where each of its values has a unit of its own. */
  readonly units: UnitColumn | undefined;
}

/** The columns of readings of a plan. @param unitCells - the line of units, empty where the file has none */
export function readingColumns(
  plan: FilePlan,
  unitCells: readonly string[],
  points: Dictionary,
): readonly ReadingColumn[] {
  return plan.columns.flatMap((use, index) =>
    use.field === 'reading' ? [readingColumn(use, index, unitCells[index], points)] : [],
  );
}

function readingColumn(use: ColumnUse, index: number, unitCell: string | undefined, points: Dictionary): ReadingColumn {
  const unit = readHeader(use.header).unit ?? (unitCell === undefined ? undefined : parseUnit(unitCell));
  return {
    index,
    mode: use.mode === undefined ? NONE : MODES.indexOf(use.mode),
    unit: use.mode === undefined ? unit?.unit : MODE_UNITS[use.mode],
    prefix: use.prefix ?? unit?.prefix ?? 0,
    point: use.point === undefined ? NONE : points.intern(use.point),
    stage: use.stage === undefined ? NONE : STAGES.indexOf(use.stage),
    units: use.unitColumn === undefined ? undefined : new UnitColumn(use.unitColumn),
  };
}

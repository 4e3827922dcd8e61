import { selectMedian } from '../statistics/numerics/select-median.ts';

/** Observations in a two-way layout with gaps, as columns of equal length: row and column numbers from 0 up, and values. */
export interface TwoWay {
  readonly row: Uint32Array;
  readonly column: Uint32Array;
  readonly value: Float64Array;
}

export interface Polish {
  /** Effect of each row; 0 where it has no value. */
  readonly rows: Float64Array;
  /** Effect of each column, likewise; only their differences mean something. */
  readonly columns: Float64Array;
}

const MOST_ROUNDS = 40;
const SETTLED = 1e-6;

/**
 * Splits values into a row's effect plus a column's effect by taking medians over rows and columns in turn, so that wild values do no harm.
 * Source: Tukey 1977, Exploratory Data Analysis, ch. 11. Cost: O(n log n) a round, up to 40 rounds.
 */
export function medianPolish({ row, column, value }: TwoWay): Polish {
  const byRow = groupPositions(row);
  const byColumn = groupPositions(column);
  let columns = new Float64Array(byColumn.length);
  let rows = new Float64Array(byRow.length);
  for (let round = 0; round < MOST_ROUNDS; round += 1) {
    const [before, from] = [columns, columns];
    rows = medians(byRow, (at) => value[at]! - from[column[at]!]!);
    const levels = rows;
    columns = medians(byColumn, (at) => value[at]! - levels[row[at]!]!);
    if (columns.every((effect, at) => Math.abs(effect - before[at]!) < SETTLED)) break;
  }
  return { rows, columns };
}

/** The positions that hold each key. */
function groupPositions(keys: Uint32Array): readonly Uint32Array[] {
  const groups: number[][] = [];
  keys.forEach((key, at) => {
    while (groups.length <= key) groups.push([]);
    groups[key]!.push(at);
  });
  return groups.map((group) => Uint32Array.from(group));
}

function medians(groups: readonly Uint32Array[], restAt: (at: number) => number): Float64Array<ArrayBuffer> {
  return Float64Array.from(groups, (group) => {
    return group.length === 0 ? 0 : selectMedian(Float64Array.from(group, restAt));
  });
}

import type { DecimalMark } from '../../domain/quantity.ts';
import type { FigureCell } from '../charts/figure-table.ts';
import { fixedText, percentText } from '../charts/share-text.ts';
import { countText } from '../words.ts';

/** A count as a cell. */
export function countCell(count: number, mark: DecimalMark): FigureCell {
  return { text: countText(count, mark), value: count };
}

/** A count of repairs as a cell that leads to them. */
export function countedIn(count: number, repairs: string, mark: DecimalMark): FigureCell {
  return { ...countCell(count, mark), ...(count > 0 && { href: repairs }) };
}

/** A number with so many decimals as a cell; empty where it is none. */
export function numberCell(value: number | undefined, decimals: number, mark: DecimalMark): FigureCell {
  return value === undefined || !Number.isFinite(value)
    ? { text: '' }
    : { text: fixedText(value, decimals, mark), value };
}

/** A share with its limits as three cells; the first says where it cannot be told. */
export function shareCells(
  share: { readonly middle: number | undefined; readonly low: number; readonly high: number } | undefined,
  mark: DecimalMark,
): readonly FigureCell[] {
  if (share === undefined) return [{ text: 'too few' }, { text: '' }, { text: '' }];
  return [share.middle, share.low, share.high].map((value) =>
    value === undefined ? { text: '' } : { text: percentText(value, mark), value },
  );
}

import type { Given } from '../../domain/file-plan.ts';
import type { SetAsideKind } from '../../domain/set-aside-kind.ts';

/** What may be done to all rows of a kind: something is stated for them, or a text in them is replaced. */
export type Way = keyof Pick<Given, 'mode' | 'stage' | 'repair' | 'point' | 'start'> | 'text';

/** What most likely mends rows that were set aside for a reason. */
export function likelyWay(reason: string): Way {
  if (reason.includes('names no repair')) return 'repair';
  if (reason.includes('names no test point')) return 'point';
  if (/names no stage|no stage that/.test(reason)) return 'stage';
  if (/without its day|start that is not known/.test(reason)) return 'start';
  return /\bmode\b/.test(reason) ? 'mode' : 'text';
}

/** The cell that every reason of a kind quotes, where it is the same one; else empty. */
export function quotedBy({ rows }: SetAsideKind): string {
  const cells = new Set(rows.map(({ reason }) => /^“([^”]*)” in /.exec(reason)?.[1] ?? ''));
  return cells.size === 1 ? (Array.from(cells)[0] ?? '') : '';
}

import type { SetAside } from './import-record.ts';

/** Rows that were set aside in one file for one reason. */
export interface SetAsideKind {
  readonly file: string;
  /** The reason without the cell's own text. */
  readonly reason: string;
  readonly rows: readonly SetAside[];
}

/** What a reason says of every row alike: without the cell that it quotes first, and without what it found there. */
export function kindOfReason(reason: string): string {
  return reason.replace(/^“[^”]*” in /, 'A cell in ');
}

/** Rows by file and reason, the most frequent first. */
export function kindsOf(rows: readonly SetAside[]): readonly SetAsideKind[] {
  const kinds = new Map<string, SetAsideKind & { readonly rows: SetAside[] }>();
  for (const row of rows) {
    const kind = { file: row.file, reason: kindOfReason(row.reason), rows: [row] };
    const key = JSON.stringify([kind.file, kind.reason]);
    const same = kinds.get(key);
    if (same) same.rows.push(row);
    else kinds.set(key, kind);
  }
  return [...kinds.values()].sort((first, second) => second.rows.length - first.rows.length);
}

/** A row or file that could not become readings, kept with its reason. */
export interface SetAside {
  readonly file: string;
  /** Physical line, the first being 1; 0 where the whole file is meant. */
  readonly line: number;
  /** The column's header text, or empty where the whole row is meant. */
  readonly column: string;
  /** The row's or cell's own text. */
  readonly content: string;
  /** A sentence that says what is wrong and what to do. */
  readonly reason: string;
}

/** What a file turned out to hold. */
export const SHAPES = ['readings', 'repairs', 'bands', 'meters', 'unknown'] as const;
export type Shape = (typeof SHAPES)[number];

/** One file brought in once. `rows = taken + setAside + known`: the sum that every import shows. */
export interface ImportRecord {
  readonly file: string;
  /** SHA-256 of the bytes, hexadecimal. */
  readonly hash: string;
  readonly shape: Shape;
  readonly encoding: string;
  readonly separator: string;
  readonly rows: number;
  readonly taken: number;
  readonly setAside: number;
  /** Rows that were here already. */
  readonly known: number;
  /** Lines that are no data: blank, preamble, header, units, footer. */
  readonly noData: number;
  /** What the technician should know, each a sentence. */
  readonly notices: readonly string[];
}

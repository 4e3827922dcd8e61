/** How far bringing files in has come. */
export interface ImportProgress {
  readonly file: string;
  readonly fileNumber: number;
  readonly files: number;
  readonly bytes: number;
  readonly totalBytes: number;
  readonly rows: number;
}

/** How far any other long call has come, in steps of its own. */
export interface WorkProgress {
  readonly done: number;
  readonly total: number;
}

import type { ImportProgress } from '../worker/contract/progress.ts';

/** How far an import has come and how fast it goes. */
export interface ImportPace extends ImportProgress {
  /** Rows of this file a second; undefined until it can be told. */
  readonly rowsPerSecond?: number;
  /** Seconds until this file is read, at the pace so far. */
  readonly secondsLeft?: number;
}

/** A pace measured over less than this, in milliseconds, says nothing. */
const TELLING = 500;

/** Adds its pace to the progress of an import; one for each import. */
export class PaceMeter {
  #fileNumber = 0;
  #started = 0;

  /** @param now - milliseconds of a clock that never runs back */
  measure(progress: ImportProgress, now: number): ImportPace {
    if (progress.fileNumber !== this.#fileNumber) {
      this.#fileNumber = progress.fileNumber;
      this.#started = now;
    }
    const { bytes, totalBytes, rows } = progress;
    const seconds = (now - this.#started) / 1000;
    if (now - this.#started < TELLING || bytes === 0) return progress;
    return { ...progress, rowsPerSecond: rows / seconds, secondsLeft: ((totalBytes - bytes) * seconds) / bytes };
  }
}

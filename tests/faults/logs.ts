import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A log on disk as the page's button takes it. */
export interface LogFile {
  readonly name: string;
  readonly path: string;
  /** Readings in it. */
  readonly rows: number;
}

export const HEADER = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
const POINTS = ['5V standby', '12V main', '24V main', 'backlight'];

/** A folder for the logs of one test file. */
export class LogFolder {
  readonly path = mkdtempSync(join(tmpdir(), 'benchtally-faults-'));
  #made = 0;

  /** Writes a log of `rows` readings that no other log of this folder shares; 230,000 are more than one lot of the store. */
  log(rows: number, name = `shift-${this.#made + 1}.csv`): LogFile {
    this.#made += 1;
    return this.file(name, linesOf(this.#made, rows), rows);
  }

  file(name: string, lines: readonly string[], rows: number): LogFile {
    const path = join(this.path, name);
    writeFileSync(path, [HEADER, ...lines, ''].join('\n'));
    return { name, path, rows };
  }

  remove(): void {
    rmSync(this.path, { recursive: true, force: true });
  }
}

/** Lines of readings a second apart, each log on a day of its own. */
export function linesOf(log: number, rows: number): string[] {
  const start = Date.UTC(2026, 0, 1) + log * 10 * 86_400_000;
  return Array.from({ length: rows }, (_, row) => {
    const time = new Date(start + row * 1000).toISOString().slice(0, 19);
    const repair = `T-${log}${String(Math.floor(row / 40)).padStart(4, '0')}`;
    return `${time},${repair},HERON-48,${POINTS[row % 4]!},live,DC volts,board,${(5 + (row % 97) / 100).toFixed(2)},V,M1`;
  });
}

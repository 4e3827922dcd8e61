import type { Reading } from '../../../src/domain/reading.ts';
import { BANDED_FAMILIES, BANDS, METERS } from './scenario.ts';
import { simulateBench } from './simulate.ts';
import { longForm, tabForm, wideForm } from './write-logs.ts';
import { bandsTable, metersTable, repairsTable } from './write-tables.ts';

/** The simulation behind the sample logs: the first quarter of 2026. */
export const SAMPLE_OPTIONS = { seed: 1, repairs: 150 } as const;

/** The sample logs' names. */
export const SAMPLE_FILES = {
  january: 'shifts-2026-01-comma.csv',
  february: 'shifts-2026-02-semicolon.csv',
  march: 'shifts-2026-03-tab.tsv',
  repairs: 'repairs.csv',
  bands: 'bands.csv',
  meters: 'meters.csv',
  readme: 'README.md',
} as const;

/** Cells that stand in March's log in place of what was read, each from the next number at or after its row on. */
const UNREADABLE = [
  { row: 120, column: 7, text: '12..4 V' },
  { row: 480, column: 7, text: '4.7l V' },
  { row: 730, column: 0, text: '2026-02-30 10:15:00' },
  { row: 1000, column: 7, text: '? V' },
] as const;

/** The files of sample-logs by name, each shift log with its trap. */
export function sampleLogs(): ReadonlyMap<string, string> {
  const { readings, repairs } = simulateBench(SAMPLE_OPTIONS);
  const inMonth = (month: number): readonly Reading[] =>
    readings.filter(({ time }) => new Date(time).getUTCMonth() === month);
  const [january, february, march] = [inMonth(0), inMonth(1), inMonth(2)];
  const written = february.filter(({ state }) => state !== 'blank').length;
  return new Map([
    [SAMPLE_FILES.january, `${longForm(january)}total,,,,,,,${january.length},readings,\n`],
    [SAMPLE_FILES.february, headerAgain(wideForm(february))],
    [SAMPLE_FILES.march, unreadableCells(tabForm(march), march)],
    [SAMPLE_FILES.repairs, repairsTable(repairs)],
    [SAMPLE_FILES.bands, bandsTable(BANDED_FAMILIES, BANDS)],
    [SAMPLE_FILES.meters, metersTable(METERS)],
    [SAMPLE_FILES.readme, readme(january.length, written, march.length, repairs.length)],
  ]);
}

/** Leaves a line blank and writes the header once more in the middle, as a logger does that was started again. */
function headerAgain(text: string): string {
  const lines = text.split('\n');
  lines.splice(Math.floor(lines.length / 2), 0, '', lines[0] ?? '');
  return lines.join('\n');
}

function unreadableCells(text: string, readings: readonly Reading[]): string {
  const lines = text.split('\n');
  for (const { row, column, text: cell } of UNREADABLE) {
    const index = readings.findIndex(({ state }, at) => at >= row && state === 'value');
    const cells = lines[index + 1]?.split('\t') ?? [];
    cells[column] = cell;
    lines[index + 1] = cells.join('\t');
  }
  return lines.join('\n');
}

function readme(january: number, february: number, march: number, repairs: number): string {
  return `# Sample logs

Everything here is invented: ${repairs} repairs of a bench called Tern Lane. \`npm run samples\` writes these files anew, to the same bytes.

- \`${SAMPLE_FILES.january}\`: ${january} readings in the project's own long form. Trap: a totals line at the end, which is no data. Rows to set aside: 0.
- \`${SAMPLE_FILES.february}\`: ${february} readings, one value column per mode, decimal comma. Trap: a blank line and the header once more, which are no data. Rows to set aside: 0.
- \`${SAMPLE_FILES.march}\`: ${march} rows with units in the cells. Trap: three unreadable cells and one impossible date. Rows to set aside: ${UNREADABLE.length}.
- \`${SAMPLE_FILES.repairs}\` and \`${SAMPLE_FILES.bands}\`: the repairs, and the families with their bands. Trap: SISKIN-40 is new and has no bands. Rows to set aside: 0.
- \`${SAMPLE_FILES.meters}\`: the meters' ranges and accuracies. Trap: M2, which reads high of late, is past its calibration day. Rows to set aside: 0.
`;
}

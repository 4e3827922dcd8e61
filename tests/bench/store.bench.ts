import { callInWorker, openBenchPage } from '../support/browser-bench.ts';
import type { StoreFigures } from '../store/store-load.ts';

/** A million readings stored, read again, backed up and restored in a worker of Chromium, and the bytes that they take. */
export async function run(print: (line: string) => void): Promise<void> {
  const { page, close } = await openBenchPage();
  try {
    const rounds: StoreFigures[] = [];
    for (let round = 0; round < 3; round += 1) {
      const result = await callInWorker(page, '/tests/store/store-load.ts', 'measureStore', 1_000_000);
      rounds.push(result as StoreFigures);
    }
    const [first] = rounds;
    const times = (pick: (figures: StoreFigures) => number): string =>
      `${rounds.map((figures) => pick(figures).toFixed(0)).join(' ')} ms`;
    const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`;
    print(`${first!.readings} readings, from a file of ${megabytes(first!.fileBytes)}`);
    print(`stored, the file's own bytes included: ${times(({ store }) => store)}`);
    print(`database opened again and all read, every sum checked: ${times(({ reopen }) => reopen)}`);
    print(`opened again to a judged grid with its first rows: ${times(({ usable }) => usable)}`);
    print(`the file's bytes compressed afterwards: ${times(({ compress }) => compress)}`);
    print(`backed up into one file: ${times(({ backUp }) => backUp)}`);
    print(`the backup read back and checked: ${times(({ confirm }) => confirm)}`);
    print(`restored, every part checked: ${times(({ restore }) => restore)}`);
    print(
      `${(first!.chunkBytes / first!.readings).toFixed(1)} bytes a reading, the file itself ${megabytes(first!.originalBytes)}, the backup ${megabytes(first!.backupBytes)}`,
    );
  } finally {
    await close();
  }
}

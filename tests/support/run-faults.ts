// Fills the disk under the browser and damages its files, and prints what survived: npm run faults
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { damageFiles, DAMAGES, fillDisk } from '../faults/disk-faults.ts';
import { LogFolder } from '../faults/logs.ts';
import { faultTable, type FaultTally } from './fault-table.ts';
import { serveBuiltPage } from './serve-built-page.ts';

const MEGABYTE = 1_000_000;

/** Free room on the disk of 220 MB before files are brought in. */
const ROOM = [12, 25, 40].map((size) => size * MEGABYTE);

const { port, close } = await serveBuiltPage('node_modules/.tmp/disk-faults', 0);
const address = `http://127.0.0.1:${port}/`;
const tallies: FaultTally[] = [];

/** One run in a folder of its own. */
async function run(
  fault: string,
  what: string,
  one: (folder: string, logs: LogFolder) => Promise<boolean>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'benchtally-disk-'));
  const logs = new LogFolder();
  try {
    if (await one(folder, logs)) tallies.push({ fault, runs: 1, survived: 1 });
    else console.log(`${fault}, ${what}: skipped, for mounting a small disk takes the rights of root`);
  } catch (error) {
    tallies.push({ fault, runs: 1, survived: 0 });
    console.error(`${fault}, ${what}: ${error instanceof Error ? error.message : String(error)}`);
    process.exitCode = 1;
  } finally {
    logs.remove();
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

for (const free of ROOM) {
  await run('F13 disk full', `${free / MEGABYTE} MB free`, (folder, logs) => fillDisk(folder, address, logs, free));
}
for (const [what, damage] of Object.entries(DAMAGES)) {
  await run('F14 files damaged', what, async (folder, logs) => {
    await damageFiles(folder, address, logs, damage);
    return true;
  });
}
await close();
console.log(faultTable(tallies));

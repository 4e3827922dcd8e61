import { mkdirSync, writeFileSync } from 'node:fs';
import process from 'node:process';
import { sampleLogs } from './bench/sample-logs.ts';

mkdirSync('sample-logs', { recursive: true });
for (const [name, text] of sampleLogs()) {
  writeFileSync(`sample-logs/${name}`, text);
  process.stdout.write(`sample-logs/${name}: ${Buffer.byteLength(text)} bytes\n`);
}

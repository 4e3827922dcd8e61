// Runs a TypeScript script of this project: node tests/support/run.mjs path/to/script.ts [arguments]
import process from 'node:process';
import { runnerImport } from 'vite';

const [script, ...scriptArguments] = process.argv.slice(2);
if (script === undefined) {
  console.error('Name the script to run: node tests/support/run.mjs path/to/script.ts');
  process.exit(2);
}
process.argv.splice(1, process.argv.length - 1, script, ...scriptArguments);
await runnerImport(`./${script}`, { configFile: false, logLevel: 'warn' });

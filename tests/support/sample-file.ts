import { readFileSync } from 'node:fs';

/** A file of the sample logs, as it would be chosen. */
export function sampleFile(name: string): File {
  return new File([readFileSync(new URL(`../../sample-logs/${name}`, import.meta.url))], name);
}

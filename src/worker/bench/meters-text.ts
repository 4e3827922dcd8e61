import { planFile } from '../../intake/plan-file.ts';
import { readFile } from '../../intake/read-file.ts';
import type { MetersRead } from '../contract/bands.ts';
import { pieces } from './pieces.ts';

const NAME = 'the table';

/** Reads a table of meters as a file with the same text would be read. @throws where it is no such table, with a sentence */
export async function readMeters(text: string): Promise<MetersRead> {
  const bytes = new TextEncoder().encode(text.trim() === '' ? '' : `${text.replace(/[\r\n]+$/, '')}\n`);
  const plan = planFile(NAME, bytes, true);
  if ('refused' in plan || plan.shape !== 'meters') throw new Error(NO_TABLE);
  const contents = await readFile({ name: NAME, size: bytes.length, bytes: pieces(bytes) }, plan);
  if (contents.shape !== 'meters' || contents.rows === 0) throw new Error(NO_TABLE);
  return { meters: contents.meters, faults: contents.setAside };
}

const NO_TABLE =
  'This is no table of meters: start with a line that names its columns, meter, mode, range limit, percent and counts, and write a row for each range below.';

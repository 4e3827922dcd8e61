import { existsSync, readFileSync } from 'node:fs';

/** Texts that another program once took for something else than text. */
export const HOSTILE_TEXTS: readonly string[] = [
  '<img src=x onerror="window.pwned=1">',
  '<script>window.pwned=1</script>',
  '"><svg onload=window.pwned=1>',
  "' onmouseover='window.pwned=1",
  'javascript:window.pwned=1',
  '${window.pwned=1}',
  '{{constructor.constructor("window.pwned=1")()}}',
  '</style><iframe srcdoc="<script>parent.pwned=1</script>">',
  '__proto__',
  'constructor',
  'hasOwnProperty',
  '=HYPERLINK("https://example.org","T-1")',
  '+1-1',
  '@SUM(A1)',
  '-2+3',
  '\u202egnp.exe',
  'zero\u200bwidth',
  'a\u2028b',
  'nul\u0000byte',
  '%00%0a%0d',
  '../../etc/passwd',
  'Ω µ ½ 🔌 é',
  'x'.repeat(4000),
];

/** The lines of a public file of such texts, where it is at hand, without its comments. */
export function naughtyStrings(): readonly string[] | undefined {
  const path = new URL('../../../shared/csv-corpus/sec_naughty_strings.txt', import.meta.url);
  if (!existsSync(path)) return undefined;
  return readFileSync(path, 'utf8').split('\n').filter((line) => line !== '' && !line.startsWith('#')); // prettier-ignore
}

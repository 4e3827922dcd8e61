/** First bytes of formats that are no table of text, and what to call them. Source: each format's own specification. */
const MAGIC: readonly (readonly [string, string])[] = [
  ['504b0304', 'a ZIP archive or a spreadsheet workbook'],
  ['504b0506', 'an empty ZIP archive'],
  ['1f8b', 'a gzip archive'],
  ['425a68', 'a bzip2 archive'],
  ['fd377a585a00', 'an xz archive'],
  ['28b52ffd', 'a Zstandard archive'],
  ['377abcaf271c', 'a 7z archive'],
  ['526172211a07', 'a RAR archive'],
  ['25504446', 'a PDF document'],
  ['7b5c727466', 'an RTF document'],
  ['d0cf11e0a1b11ae1', 'an old office document or spreadsheet'],
  ['53514c69746520666f726d6174203300', 'an SQLite database'],
  ['4d5a', 'a program'],
  ['7f454c46', 'a program'],
  ['89504e47', 'a PNG picture'],
  ['ffd8ff', 'a JPEG picture'],
  ['47494638', 'a GIF picture'],
];

const LONGEST_MAGIC = 16;
const TABLE_WANTED = 'Save the table in it as CSV, and choose that file.';

/** Why a file can hold no table, as a sentence that names what it is; undefined where it may. @param text - the head, decoded */
export function refusalOf(name: string, head: Uint8Array, text: string): string | undefined {
  if (head.length === 0)
    return `“${name}” is empty: it holds no bytes. Save it again where it came from, and choose the new file.`;
  const start = hexadecimal(head.subarray(0, LONGEST_MAGIC));
  const magic = MAGIC.find(([bytes]) => start.startsWith(bytes));
  // A program starts with two letters that a header may start with too; its third byte and on are not text.
  if (magic && (magic[0].length > 4 || magic[0] === '1f8b' || isBinary(text))) {
    return `“${name}” is ${magic[1]}, not a table of text. ${TABLE_WANTED}`;
  }
  const trimmed = text.slice(0, 1000).trimStart();
  if (/^\{\s*(?:"|\})/.test(trimmed) || /^\[\s*(?:\{|\[|"[^"]*"\s*,|\])/.test(trimmed)) {
    return `“${name}” is JSON, not a table of text. ${TABLE_WANTED}`;
  }
  if (/^<(?:!doctype|html|\?xml)\b/i.test(trimmed)) {
    return `“${name}” is a web page or XML, not a table of text. ${TABLE_WANTED}`;
  }
  if (isBinary(text)) return `“${name}” is no text but binary data. ${TABLE_WANTED}`;
  if (text.trim() === '')
    return `“${name}” is empty: it holds blanks and line ends only. Save it again where it came from, and choose the new file.`;
  return undefined;
}

function hexadecimal(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** Whether more than a tenth of the first characters are controls that no text uses. */
function isBinary(text: string): boolean {
  const sample = text.slice(0, 4096);
  let controls = 0;
  for (let at = 0; at < sample.length; at += 1) {
    const code = sample.charCodeAt(at);
    if (code < 32 && code !== 9 && code !== 10 && code !== 13 && code !== 12 && code !== 27) controls += 1;
  }
  return controls > 0.1 * sample.length;
}

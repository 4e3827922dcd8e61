import { inflateSync } from 'node:zlib';

/**
 * The text of a PDF as Chromium writes it, a page each, words in the order in which they are drawn, with single spaces. Reads just what that needs
 * of ISO 32000-1: objects that are not packed into streams, Flate content streams (7.4.4), the operators that show text (9.4.3), and the
 * ToUnicode maps of fonts (9.10.3).
 */
export function pdfPages(bytes: Uint8Array): readonly string[] {
  const objects = objectsOf(Buffer.from(bytes).toString('latin1'));
  const pages = [...objects.values()].filter((body) => /\/Type\s*\/Page\b/.test(body));
  return pages.map((page) => {
    const fonts = fontsOf(page, objects);
    const contents = [...page.matchAll(/\/Contents\s*\[?([^\]/>]*)/g)].flatMap(([, refs = '']) => refsIn(refs));
    const drawn = contents.map((ref) => shownText(streamOf(objects.get(ref) ?? ''), fonts)).join(' ');
    return drawn
      .replaceAll(/\s+/g, ' ')
      .replaceAll(/ (?=[.,;:)])|(?<=\() /g, '')
      .trim();
  });
}

type Font = ReadonlyMap<number, string>;

function objectsOf(file: string): ReadonlyMap<string, string> {
  return new Map(
    [...file.matchAll(/(\d+ \d+) obj\b([\s\S]*?)\bendobj/g)].map(([, name = '', body = '']) => [name, body]),
  );
}

function refsIn(text: string): readonly string[] {
  return [...text.matchAll(/(\d+ \d+) R/g)].map(([, name = '']) => name);
}

function streamOf(body: string): string {
  const start = /stream\r?\n/.exec(body);
  if (start === null) return '';
  const data = Buffer.from(body.slice(start.index + start[0].length, body.lastIndexOf('endstream')), 'latin1');
  return body.includes('/FlateDecode') ? inflateSync(data).toString('latin1') : data.toString('latin1');
}

/** The fonts that a page names, each with the text of its codes. */
function fontsOf(page: string, objects: ReadonlyMap<string, string>): ReadonlyMap<string, Font> {
  const named = /\/Font\s*<<([\s\S]*?)>>/.exec(page)?.[1] ?? '';
  return new Map(
    [...named.matchAll(/\/(\w+)\s+(\d+ \d+) R/g)].map(([, name = '', ref = '']) => {
      const map = /\/ToUnicode (\d+ \d+) R/.exec(objects.get(ref) ?? '')?.[1] ?? '';
      return [name, codesOf(streamOf(objects.get(map) ?? ''))];
    }),
  );
}

function codesOf(map: string): Font {
  const codes = new Map<number, string>();
  const blocks = (kind: string) => [...map.matchAll(new RegExp(`begin${kind}([\\s\\S]*?)end${kind}`, 'g'))];
  for (const [, block = ''] of blocks('bfchar'))
    for (const [, code = '', text = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>/g)) codes.set(hex(code), utf16(text));
  for (const [, block = ''] of blocks('bfrange'))
    for (const [, from = '', to = '', text = ''] of block.matchAll(/<(\w+)>\s*<(\w+)>\s*<(\w+)>/g))
      for (let code = hex(from); code <= hex(to); code += 1)
        codes.set(code, String.fromCodePoint(hex(text) + code - hex(from)));
  return codes;
}

function hex(digits: string): number {
  return Number.parseInt(digits, 16);
}

function utf16(digits: string): string {
  return Buffer.from(digits, 'hex').swap16().toString('utf16le');
}

/** What a content stream shows; text objects stand apart. */
function shownText(content: string, fonts: ReadonlyMap<string, Font>): string {
  let font: Font = new Map();
  let text = '';
  for (const [token, name] of content.matchAll(/\/(\w+) [\d.]+ Tf|<[0-9A-Fa-f]+>|\bET\b/g)) {
    if (name !== undefined) font = fonts.get(name) ?? new Map();
    else if (token.startsWith('<'))
      text += token.slice(1, -1).match(/..../g)?.map((code) => font.get(hex(code)) ?? '').join('') ?? ''; // prettier-ignore
    else text += ' ';
  }
  return text;
}

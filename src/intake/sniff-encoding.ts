import type { Encoding } from '../domain/file-plan.ts';

/** An encoding and the evidence for it. */
export interface EncodingGuess {
  readonly encoding: Encoding;
  readonly reason: string;
}

/**
 * The encoding of a file by its beginning: a byte order mark; zero bytes at every other place (UTF-16);
 * validity as UTF-8, but for a byte here and there that was damaged; else windows-1252, in which every byte is a character.
 * @param atEnd - whether `head` is the whole file, so that half a character at its end counts as an error
 */
export function sniffEncoding(head: Uint8Array, atEnd: boolean): EncodingGuess {
  if (head[0] === 0xff && head[1] === 0xfe) return { encoding: 'utf-16le', reason: 'starts with the mark of UTF-16' };
  if (head[0] === 0xfe && head[1] === 0xff) return { encoding: 'utf-16be', reason: 'starts with the mark of UTF-16' };
  if (head[0] === 0xef && head[1] === 0xbb && head[2] === 0xbf) {
    return { encoding: 'utf-8', reason: 'starts with the mark of UTF-8' };
  }
  const wide = sniffUtf16(head);
  if (wide) return { encoding: wide, reason: 'every other byte is zero' };
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(head, { stream: !atEnd });
    return { encoding: 'utf-8', reason: 'is valid UTF-8' };
  } catch {
    return isDamagedUtf8(head, atEnd)
      ? { encoding: 'utf-8', reason: 'is UTF-8 but for single bytes' }
      : { encoding: 'windows-1252', reason: 'is no valid UTF-8' };
  }
}

/**
 * Whether whole characters of several bytes are as many as the bytes that belong to none: text of a one-byte encoding hardly ever makes such a
 * character by chance, since its letters beyond ASCII seldom stand beside each other.
 */
function isDamagedUtf8(head: Uint8Array, atEnd: boolean): boolean {
  const text = new TextDecoder('utf-8').decode(head, { stream: !atEnd });
  let whole = 0;
  let broken = 0;
  for (const character of text) {
    if (character === '\ufffd') broken += 1;
    else if (character > '\u007f') whole += 1;
  }
  return whole >= broken;
}

/** UTF-16 without a mark: text of mostly Western characters has zeros in all its high bytes and hardly any in the low ones. */
function sniffUtf16(head: Uint8Array): Encoding | undefined {
  const pairs = Math.min(head.length, 65_536) >> 1;
  let even = 0;
  let odd = 0;
  for (let at = 0; at < 2 * pairs; at += 2) {
    if (head[at] === 0) even += 1;
    if (head[at + 1] === 0) odd += 1;
  }
  if (pairs === 0) return undefined;
  if (odd > 0.5 * pairs && even < 0.1 * pairs) return 'utf-16le';
  if (even > 0.5 * pairs && odd < 0.1 * pairs) return 'utf-16be';
  return undefined;
}

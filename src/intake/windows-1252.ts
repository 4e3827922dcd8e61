/**
 * The characters of bytes 0x80 to 0x9F; all other bytes stand for the character of their own number.
 * Source: WHATWG Encoding Standard, index windows-1252. Carried here because some platforms decode these bytes wrongly.
 */
export const WINDOWS_1252_HIGH: readonly number[] = [
  0x20ac, 0x0081, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0x008d, 0x017d, 0x008f,
  0x0090, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0x009d, 0x017e, 0x0178,
]; // prettier-ignore

const CODES = Uint16Array.from({ length: 256 }, (_, byte) => WINDOWS_1252_HIGH[byte - 0x80] ?? byte);

/** Bytes of windows-1252 as little-endian UTF-16. */
export function windows1252ToUtf16(bytes: Uint8Array): Uint8Array {
  const wide = new Uint8Array(2 * bytes.length);
  for (let at = 0; at < bytes.length; at += 1) {
    const code = CODES[bytes[at]!]!;
    wide[2 * at] = code & 0xff;
    wide[2 * at + 1] = code >> 8;
  }
  return wide;
}

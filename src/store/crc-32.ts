/** Tables of 256 entries that follow each other: what a byte does to the sum when 0, 1, … 7 more bytes come after it. */
const TABLES = makeTables(8);

/** RFC 1952, section 8, `make_crc_table`, and from it the tables of Kounavis and Berry (Intel, 2005, "slicing by eight"). */
function makeTables(count: number): Int32Array {
  const tables = new Int32Array(256 * count);
  for (let byte = 0; byte < 256; byte += 1) {
    let entry = byte;
    for (let bit = 0; bit < 8; bit += 1) entry = entry & 1 ? 0xedb88320 ^ (entry >>> 1) : entry >>> 1;
    tables[byte] = entry;
  }
  for (let at = 256; at < tables.length; at += 1) {
    const before = tables[at - 256] ?? 0;
    tables[at] = (tables[before & 0xff] ?? 0) ^ (before >>> 8);
  }
  return tables;
}

/** What byte `shift / 8` of a word does to the sum when `after` more bytes come behind it. */
function effect(word: number, shift: number, after: number): number {
  return TABLES[256 * after + ((word >>> shift) & 0xff)] ?? 0;
}

/**
 * CRC-32 of `bytes` as RFC 1952, section 8 defines it, from 0 to 2³² − 1; eight bytes at a time.
 * @param earlier - the sum of the bytes before these, where a sum goes on
 */
export function crc32(bytes: Uint8Array, earlier = 0): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
  let sum = ~earlier;
  let at = 0;
  for (const end = bytes.length - 7; at < end; at += 8) {
    const low = sum ^ view.getInt32(at, true);
    const high = view.getInt32(at + 4, true);
    sum =
      effect(low, 0, 7) ^ effect(low, 8, 6) ^ effect(low, 16, 5) ^ effect(low, 24, 4) ^
      effect(high, 0, 3) ^ effect(high, 8, 2) ^ effect(high, 16, 1) ^ effect(high, 24, 0); // prettier-ignore
  }
  for (; at < bytes.length; at += 1) sum = effect(sum ^ view.getUint8(at), 0, 0) ^ (sum >>> 8);
  return ~sum >>> 0;
}

/** CRC-32 of numbers from 0 to 2³² − 1, four bytes each, the lowest first. */
export function crc32OfNumbers(numbers: readonly number[]): number {
  const view = new DataView(new ArrayBuffer(4 * numbers.length));
  numbers.forEach((number, index) => {
    view.setUint32(4 * index, number, true);
  });
  return crc32(new Uint8Array(view.buffer));
}

/** Bytes that are read before the next look for a cancel. */
const PIECE_BYTES = 1024 * 1024;

/** Bytes that are here already, as the stream that a reader takes. */
// eslint-disable-next-line @typescript-eslint/require-await -- an async generator that never waits
export async function* pieces(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  for (let start = 0; start < bytes.length; start += PIECE_BYTES) yield bytes.subarray(start, start + PIECE_BYTES);
}

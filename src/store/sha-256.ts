/** SHA-256 (FIPS 180-4) of bytes: 32 bytes. */
export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array<ArrayBuffer>> {
  return new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
}

/** Bytes as lower-case hexadecimal digits. */
export function hexOf(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/**
 * A sum over any number of pieces without holding them together: each seal is the SHA-256 of the seal before it and the
 * SHA-256 of the piece.
 */
export async function nextSeal(
  seal: Uint8Array<ArrayBuffer>,
  piece: Uint8Array<ArrayBuffer>,
): Promise<Uint8Array<ArrayBuffer>> {
  const digest = await sha256(piece);
  const both = new Uint8Array(seal.length + digest.length);
  both.set(seal);
  both.set(digest, seal.length);
  return sha256(both);
}

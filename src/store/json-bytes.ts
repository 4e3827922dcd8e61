import { ShapeFault, type Read } from './fields.ts';

/** Deepest nesting that is read; what the program writes stays well under it. */
const DEPTH_LIMIT = 16;

const QUOTE = 0x22;
const BACKSLASH = 0x5c;

/** A value as JSON in UTF-8; numbers that JSON does not know become `null`. */
export function jsonBytes(value: unknown): Uint8Array<ArrayBuffer> {
  return new TextEncoder().encode(JSON.stringify(value));
}

/**
 * The value of JSON bytes, built anew by `read`.
 * @throws ShapeFault where it is no JSON, nested too deep, or not what `read` takes
 */
export function readJson<T>(bytes: Uint8Array, read: Read<T>, place: string): T {
  if (depthOf(bytes) > DEPTH_LIMIT) throw new ShapeFault(`${place} is nested deeper than ${DEPTH_LIMIT}`);
  let value: unknown;
  try {
    value = JSON.parse(new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes));
  } catch {
    throw new ShapeFault(`${place} is no JSON`);
  }
  return read(value, place);
}

function depthOf(bytes: Uint8Array): number {
  let depth = 0;
  let deepest = 0;
  let inText = false;
  let escaped = false;
  for (const byte of bytes) {
    if (inText) {
      if (escaped) escaped = false;
      else if (byte === BACKSLASH) escaped = true;
      else if (byte === QUOTE) inText = false;
    } else if (byte === QUOTE) {
      inText = true;
    } else if (byte === 0x5b || byte === 0x7b) {
      depth += 1;
      if (depth > deepest) deepest = depth;
    } else if (byte === 0x5d || byte === 0x7d) {
      depth -= 1;
    }
  }
  return deepest;
}

import type { Encoding } from '../domain/file-plan.ts';
import { windows1252ToUtf16 } from './windows-1252.ts';

/** Decodes a file's bytes piece by piece; no character breaks at a piece's edge. A leading byte order mark is dropped. */
export class FileDecoder {
  readonly #decoder: TextDecoder;
  readonly #widen: boolean;

  constructor(encoding: Encoding) {
    this.#widen = encoding === 'windows-1252';
    this.#decoder = this.#widen ? new TextDecoder('utf-16le', { ignoreBOM: true }) : new TextDecoder(encoding);
  }

  /** The characters that `bytes` complete; undecodable bytes become U+FFFD. */
  decode(bytes: Uint8Array): string {
    return this.#decoder.decode(this.#widen ? windows1252ToUtf16(bytes) : bytes, { stream: true });
  }

  /** What a file that ends here leaves over: U+FFFD for half a character, else nothing. */
  end(): string {
    return this.#decoder.decode();
  }
}

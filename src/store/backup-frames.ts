import { nextSeal, sha256 } from './sha-256.ts';
import { StoreError } from './store-error.ts';

/**
 * A backup is one file: eight bytes that name the format, then frames. A frame is its kind and the length of its content
 * (four bytes each, lowest first) and its content. The last frame holds the seal of all before it (`nextSeal`), which
 * starts as the SHA-256 of the first eight bytes; nothing follows it.
 */
const FRAME_KINDS = ['header', 'state', 'edits', 'import', 'details', 'chunk', 'original', 'end'] as const;
export type FrameKind = (typeof FRAME_KINDS)[number];

export interface Frame {
  readonly kind: FrameKind;
  readonly content: Uint8Array<ArrayBuffer>;
}

/** A byte above 127 and both line ends show whether the file was sent as text. */
const MAGIC = Uint8Array.of(0x8a, 0x42, 0x54, 0x42, 0x0d, 0x0a, 0x1a, 0x0a);
const FRAME_HEAD = 8;
const SEAL_BYTES = 32;
/** Largest content that is read, in bytes. */
const CONTENT_LIMIT = 512 * 1024 * 1024;
/** Bytes that are gathered in memory before they are handed to the browser as a part of the file. */
const PART_BYTES = 32 * 1024 * 1024;

/** Writes frames one after the other into one file. */
export class FrameWriter {
  readonly #parts: Blob[] = [];
  #waiting: Uint8Array<ArrayBuffer>[] = [MAGIC];
  #size = MAGIC.length;
  #seal = sha256(MAGIC);

  async write(kind: FrameKind, content: Uint8Array<ArrayBuffer>): Promise<void> {
    const frame = new Uint8Array(FRAME_HEAD + content.length);
    const view = new DataView(frame.buffer);
    view.setUint32(0, FRAME_KINDS.indexOf(kind), true);
    view.setUint32(4, content.length, true);
    frame.set(content, FRAME_HEAD);
    this.#waiting.push(frame);
    this.#size += frame.length;
    if (this.#size >= PART_BYTES) this.#flush();
    this.#seal = Promise.resolve(await nextSeal(await this.#seal, frame));
  }

  /** Ends the file. @returns it, and its seal */
  async finish(): Promise<{ readonly file: Blob; readonly seal: Uint8Array<ArrayBuffer> }> {
    const seal = await this.#seal;
    await this.write('end', seal);
    this.#flush();
    return { file: new Blob(this.#parts, { type: 'application/octet-stream' }), seal };
  }

  #flush(): void {
    this.#parts.push(new Blob(this.#waiting));
    this.#waiting = [];
    this.#size = 0;
  }
}

/**
 * The frames of a file, the last one included, each as it is read; only after the last is it known that all were sound.
 * @throws StoreError of fault `refused` where the file is none, cut off, longer than its end, or changed
 */
export async function* readFrames(file: Blob): AsyncGenerator<Frame> {
  if (file.size < MAGIC.length || !sameBytes(await bytesAt(file, 0, MAGIC.length), MAGIC))
    throw refused('This file is no backup of this program.');
  let seal = await sha256(MAGIC);
  let place = MAGIC.length;
  for (;;) {
    if (place + FRAME_HEAD > file.size) throw cutOff(file);
    const head = new DataView((await bytesAt(file, place, FRAME_HEAD)).buffer);
    const kind = FRAME_KINDS[head.getUint32(0, true)];
    const length = head.getUint32(4, true);
    if (kind === undefined || length > CONTENT_LIMIT) throw refused('This backup is damaged: take another copy of it.');
    const end = place + FRAME_HEAD + length;
    if (end > file.size) throw cutOff(file);
    const frame = await bytesAt(file, place, FRAME_HEAD + length);
    const content = frame.slice(FRAME_HEAD);
    if (kind === 'end') {
      if (length !== SEAL_BYTES || !sameBytes(content, seal))
        throw refused('This backup is damaged: its check sum is another than its content. Take another copy of it.');
      if (end !== file.size)
        throw refused(`This backup has ${file.size - end} bytes after its end: take another copy of it.`);
      yield { kind, content };
      return;
    }
    yield { kind, content };
    seal = await nextSeal(seal, frame);
    place = end;
  }
}

function cutOff(file: Blob): StoreError {
  return refused(`This backup is cut off after ${file.size} bytes: take another copy of it.`);
}

function refused(sentence: string): StoreError {
  return new StoreError('refused', sentence);
}

async function bytesAt(file: Blob, place: number, length: number): Promise<Uint8Array<ArrayBuffer>> {
  try {
    return new Uint8Array(await file.slice(place, place + length).arrayBuffer());
  } catch (cause) {
    throw new StoreError(
      'refused',
      'The backup could not be read: it was moved or changed since it was chosen. Choose it again.',
      cause,
    );
  }
}

function sameBytes(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, index) => byte === other[index]);
}

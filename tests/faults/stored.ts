import type { Page } from 'playwright-core';

/** One import as it lies in the browser's storage, read without any of the project's own code. */
export interface StoredImport {
  readonly file: string;
  /** SHA-256 of the file's bytes, as the ledger says. */
  readonly hash: string;
  readonly state: 'running' | 'complete' | 'removed';
  /** Readings, as the ledger says. */
  readonly rows: number;
  /** Readings, as each chunk says. */
  readonly chunkRows: readonly number[];
  /** Whether every sum of the ledger is that of what is stored, and the kept bytes are those of the file. */
  readonly isSound: boolean;
  /** CRC-32 over everything that is read back of it. */
  readonly sum: number;
}

/** The present bench as it lies in the browser's storage. */
export interface Stored {
  readonly imports: readonly StoredImport[];
  /** Imports in the order in which they came, by their names. */
  readonly order: readonly string[];
  /** Records of the present bench that belong to no complete import. */
  readonly strays: number;
  /** Entries of the journal. */
  readonly edits: number;
  /** Text of all that can be edited. */
  readonly state: string;
}

/** Reads the storage of the page's origin; an empty bench where there is none. */
export function readStored(page: Page): Promise<Stored> {
  return page.evaluate(async () => {
    interface Line {
      generation: number;
      hash: string;
      file: string;
      order: number;
      state: 'running' | 'complete' | 'removed';
      rows: number;
      chunks: number[];
      details: number;
      bytes: number;
    }
    interface Item {
      generation: number;
      hash: string;
      no: number;
      packing: string;
      bytes: Uint8Array<ArrayBuffer>;
    }
    // RFC 1952, section 8.
    const table = Uint32Array.from({ length: 256 }, (_, n) => {
      let c = n;
      for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
      return c;
    });
    const crc32 = (bytes: Uint8Array, start = 0): number => {
      let c = ~start;
      for (const byte of bytes) c = table[(c ^ byte) & 0xff]! ^ (c >>> 8);
      return ~c >>> 0;
    };
    const sha256 = async (parts: Blob): Promise<string> => {
      const digest = await crypto.subtle.digest('SHA-256', await parts.arrayBuffer());
      return Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
    };
    const unpacked = ({ packing, bytes }: Item): Promise<Blob> => {
      const blob = new Blob([bytes]);
      if (packing !== 'gzip') return Promise.resolve(blob);
      return new Response(blob.stream().pipeThrough(new DecompressionStream('gzip'))).blob();
    };
    const exists = (await indexedDB.databases()).some(({ name }) => name === 'benchtally');
    if (!exists) return { imports: [], order: [], strays: 0, edits: 0, state: '[]' };
    const database = await new Promise<IDBDatabase>((resolve, reject) => {
      const opening = indexedDB.open('benchtally');
      opening.onsuccess = () => { resolve(opening.result); }; // prettier-ignore
      opening.onerror = () => { reject(new Error(opening.error?.message)); }; // prettier-ignore
    });
    database.onversionchange = () => { database.close(); }; // prettier-ignore
    const all = <Item_>(store: string): Promise<Item_[]> =>
      new Promise((resolve, reject) => {
        const asked = database.transaction(store).objectStore(store).getAll();
        asked.onsuccess = () => { resolve(asked.result as Item_[]); }; // prettier-ignore
        asked.onerror = () => { reject(new Error(asked.error?.message)); }; // prettier-ignore
      });
    const about = await all<{ key: string; current: number }>('about');
    const current = about.find(({ key }) => key === 'pointer')?.current;
    const lines = (await all<Line>('imports')).filter(({ generation }) => generation === current);
    const [details, chunks, originals] = [
      await all<Item>('details'),
      await all<Item>('chunks'),
      await all<Item>('originals'),
    ];
    const imports = [];
    for (const line of lines) {
      const own = ({ generation, hash }: Item): boolean => generation === current && hash === line.hash;
      const mine = chunks.filter(own).sort((one, other) => one.no - other.no);
      const sums = mine.map(({ bytes }) => crc32(bytes));
      const detail = details.find(own)?.bytes ?? new Uint8Array();
      const pieces = originals.filter(own).sort((one, other) => one.no - other.no);
      const file = new Blob(await Promise.all(pieces.map(unpacked)));
      imports.push({
        file: line.file,
        hash: line.hash,
        state: line.state,
        rows: line.rows,
        chunkRows: mine.map(({ bytes }) => new DataView(bytes.buffer, bytes.byteOffset).getUint32(0, true)),
        isSound:
          sums.join() === line.chunks.join() &&
          crc32(detail) === line.details &&
          file.size === line.bytes &&
          (await sha256(file)) === line.hash,
        sum: mine.reduce((sum, { bytes }) => crc32(bytes, sum), crc32(detail)),
      });
    }
    const state = (await all<{ generation: number }>('state')).filter(({ generation }) => generation === current);
    const edits = (await all<{ generation: number }>('journal')).filter(({ generation }) => generation === current);
    database.close();
    const complete = lines.filter((line) => line.state === 'complete').sort((one, other) => one.order - other.order);
    const hashes = new Set(complete.map(({ hash }) => hash));
    const strays = [...details, ...chunks, ...originals].filter(
      ({ generation, hash }) => generation === current && !hashes.has(hash),
    );
    return {
      imports,
      order: complete.map(({ file }) => file),
      strays: strays.length,
      edits: edits.length,
      state: JSON.stringify(state),
    };
  });
}

import { chunkCount, encodeChunk, encodeNames } from './columns-codec.ts';
import type { ImportDetails } from './import-shapes.ts';
import { jsonBytes } from './json-bytes.ts';
import type { NewImport } from './kept.ts';
import { pieceCount, pieceOf } from './original-pieces.ts';

/** One record of an import's bulk: a chunk of readings, or a piece of the file itself. */
export interface ImportUnit {
  readonly store: 'chunks' | 'originals';
  readonly no: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** The bulk of an import, made as it is asked for. */
export function* unitsOf({ log, bytes }: NewImport): Generator<ImportUnit> {
  const chunks = log === undefined ? 0 : chunkCount(log.count);
  for (let no = 0; log !== undefined && no < chunks; no += 1) {
    yield { store: 'chunks', no, bytes: encodeChunk(log, no) };
  }
  const pieces = pieceCount(bytes.length);
  for (let no = 0; no < pieces; no += 1) yield { store: 'originals', no, bytes: pieceOf(bytes, no) };
}

/** Units gathered into lots of about `most` bytes; at least one lot, which may be empty. */
export function* lotsOf(units: Iterable<ImportUnit>, most: number): Generator<readonly ImportUnit[]> {
  let lot: ImportUnit[] = [];
  let size = 0;
  for (const unit of units) {
    if (lot.length > 0 && size + unit.bytes.length > most) {
      yield lot;
      lot = [];
      size = 0;
    }
    lot.push(unit);
    size += unit.bytes.length;
  }
  yield lot;
}

/** What is kept of an import beside its bulk, as bytes. */
export function detailBytes({ record, setAside, plan, log }: NewImport): Uint8Array<ArrayBuffer> {
  const details: ImportDetails = {
    record,
    setAside,
    ...(plan && { plan }),
    ...(log && { names: encodeNames(log.names) }),
  };
  return jsonBytes(details);
}

import { FrameWriter, readFrames, type Frame } from '../../src/store/backup-frames.ts';
import { BACKUP_FORMAT, encodePiece, type BackupHeader, type BackupImport } from '../../src/store/backup-shapes.ts';
import { crc32 } from '../../src/store/crc-32.ts';
import { detailBytes, unitsOf } from '../../src/store/import-units.ts';
import { jsonBytes } from '../../src/store/json-bytes.ts';
import type { BenchState, Edit, NewImport } from '../../src/store/kept.ts';
import { compressPiece, pieceCount } from '../../src/store/original-pieces.ts';

/** A backup made of the same parts as one written from a database, so that it can be read without one. */
export async function backupOf(
  state: BenchState,
  edits: readonly Edit[],
  imports: readonly NewImport[],
): Promise<Blob> {
  const header: BackupHeader = {
    app: 'benchtally',
    format: BACKUP_FORMAT,
    made: Date.UTC(2026, 2, 15),
    imports: imports.length,
    readings: imports.reduce((sum, { log }) => sum + (log?.count ?? 0), 0),
    edits: edits.length,
  };
  const frames: Frame[] = [
    { kind: 'header', content: jsonBytes(header) },
    { kind: 'state', content: jsonBytes(state) },
    { kind: 'edits', content: jsonBytes(edits) },
  ];
  for (const one of imports) frames.push(...(await framesOf(one)));
  return sealed(frames);
}

/** Frames with the right seal, whatever they hold. */
export async function sealed(frames: readonly Frame[]): Promise<Blob> {
  const writer = new FrameWriter();
  for (const { kind, content } of frames) await writer.write(kind, content);
  return (await writer.finish()).file;
}

/** The frames of a sound file but its last. */
export async function framesIn(file: Blob): Promise<Frame[]> {
  const frames: Frame[] = [];
  for await (const frame of readFrames(file)) if (frame.kind !== 'end') frames.push(frame);
  return frames;
}

async function framesOf(given: NewImport): Promise<Frame[]> {
  const details = detailBytes(given);
  const units = [...unitsOf(given)];
  const entry: BackupImport = {
    hash: given.record.hash,
    file: given.record.file,
    rows: given.log?.count ?? 0,
    chunks: units.filter(({ store }) => store === 'chunks').map(({ bytes }) => crc32(bytes)),
    details: crc32(details),
    bytes: given.bytes.length,
    pieces: pieceCount(given.bytes.length),
  };
  const frames: Frame[] = [
    { kind: 'import', content: jsonBytes(entry) },
    { kind: 'details', content: details },
  ];
  for (const { store, bytes } of units) {
    if (store === 'chunks') frames.push({ kind: 'chunk', content: bytes });
    else frames.push({ kind: 'original', content: encodePiece('gzip', (await compressPiece(bytes)) ?? bytes) });
  }
  return frames;
}

import type { DBSchema, IDBPDatabase, IDBPTransaction } from 'idb';
import type { BenchState, Edit, LastBackup, StatePart } from './kept.ts';

/** Marks a database as this program's: another program on the same origin may have one of the same name. */
export const APP_ID = 'benchtally';

/** Where an import stands. One that is not complete is never read; one that was removed leaves its line, so that nobody misses it. */
export type ImportState = 'running' | 'complete' | 'removed';

interface AppRecord {
  readonly key: 'app';
  readonly app: typeof APP_ID;
  /** A random name of this very database. */
  readonly database: string;
}

/** Which generation of records is the bench; the one before stays until the next is made. */
export interface PointerRecord {
  readonly key: 'pointer';
  readonly current: number;
  readonly previous?: number;
  /** The number of the next generation. */
  readonly next: number;
  /** Generations that are being written, or were broken off. */
  readonly unfinished: readonly number[];
}

interface BackupNote extends Omit<LastBackup, 'holdsAll'> {
  readonly key: 'backup';
  /** Tells what was kept then. */
  readonly mark?: string;
}

/** The file outside the browser that is kept up to date, and what it was last found to hold. */
export interface BackupFileNote {
  readonly key: 'file';
  readonly handle: FileSystemFileHandle;
  /** Milliseconds since 1970, UTC. */
  readonly at?: number;
  /** Tells what was kept then. */
  readonly mark?: string;
  readonly generation?: number;
  /** Of the file as it was written: bytes, and when in milliseconds since 1970, UTC. */
  readonly size?: number;
  readonly modified?: number;
}

/** Files that a tab has begun to bring in. */
export interface BegunNote {
  readonly key: `begun ${string}`;
  readonly files: readonly string[];
  /** How many of them are kept by now. */
  readonly kept: number;
}

/** An import's line in the ledger: what must be there of it. */
export interface ImportLine {
  readonly generation: number;
  readonly hash: string;
  /** Imports come back in this order. */
  readonly order: number;
  readonly state: ImportState;
  readonly file: string;
  /** Who writes it: two that write the same import never mix. */
  readonly owner: string;
  /** Readings. */
  readonly rows: number;
  /** CRC-32 of each chunk. */
  readonly chunks: readonly number[];
  /** CRC-32 of the details. */
  readonly details: number;
  /** Bytes of the file itself, and in how many pieces they are kept. */
  readonly bytes: number;
  readonly pieces: number;
}

export interface StoredDetails {
  readonly generation: number;
  readonly hash: string;
  /** JSON of the details. */
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface StoredChunk {
  readonly generation: number;
  readonly hash: string;
  readonly no: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/** How a piece of a file's bytes is kept: as it came, compressed, or as it is for good, because compressing makes it no smaller. */
export const PIECE_PACKINGS = ['plain', 'gzip', 'incompressible'] as const;
export type PiecePacking = (typeof PIECE_PACKINGS)[number];

export interface StoredPiece {
  readonly generation: number;
  readonly hash: string;
  readonly no: number;
  readonly packing: PiecePacking;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

interface StoredPart {
  readonly generation: number;
  readonly part: StatePart;
  readonly items: BenchState[StatePart];
}

export interface StoredEdit extends Edit {
  readonly generation: number;
}

/** Every key but those of `about` starts with the generation. */
interface BenchSchema extends DBSchema {
  about: { key: string; value: AppRecord | PointerRecord | BackupNote | BackupFileNote | BegunNote };
  imports: { key: [number, string]; value: ImportLine; indexes: { order: [number, number] } };
  details: { key: [number, string]; value: StoredDetails };
  chunks: { key: [number, string, number]; value: StoredChunk };
  originals: { key: [number, string, number]; value: StoredPiece; indexes: { packing: [number, string] } };
  state: { key: [number, string]; value: StoredPart };
  journal: { key: [number, number]; value: StoredEdit };
}

export const GENERATION_STORES = ['imports', 'details', 'chunks', 'originals', 'state', 'journal'] as const;
export const ALL_STORES = ['about', ...GENERATION_STORES] as const;
type StoreName = (typeof ALL_STORES)[number];

export type BenchConnection = IDBPDatabase<BenchSchema>;
export type ReadTransaction = IDBPTransaction<BenchSchema, StoreName[], 'readonly' | 'readwrite'>;
export type WriteTransaction = IDBPTransaction<BenchSchema, StoreName[], 'readwrite'>;
export type UpgradeTransaction = IDBPTransaction<BenchSchema, StoreName[], 'versionchange'>;

import { maskedBy, type Family } from '../domain/family.ts';
import { isInCircuit, isPowered, SPECIMENS } from '../domain/reading.ts';
import { partWord, type PartWord } from '../domain/verdict.ts';
import type { ReadingLog } from '../columns/reading-log.ts';

/**
 * What a repair's readings prove of a part:
 * `failed`: measured bad out of circuit, or settled otherwise as `proof` says; `good`: measured good;
 * `contradictory`: one check of it read both bad and good out of circuit; `cleared`: its in-circuit short went when another part came out;
 * `suspected`: reads bad in circuit while a part across the same nodes is not cleared; `not measured`: nothing proves anything.
 */
export type Finding = 'failed' | 'good' | 'contradictory' | 'cleared' | 'suspected' | 'not measured';

/**
 * What a finding rests on. Parallel paths can only lower a resistance: an open reading in circuit proves a part open,
 * and one that is good in circuit proves that it is not shorted.
 */
export type Proof = 'out of circuit' | 'in circuit' | 'nothing across it' | 'all others across it are good';

export interface Evidence {
  readonly finding: Finding;
  /** How it failed, or is suspected to have. */
  readonly word?: PartWord;
  readonly proof?: Proof;
  /** Parts across the same nodes that could explain the reading of a suspected part. */
  readonly maskedBy?: readonly string[];
  /** Rows of the log that it rests on, in order of time. */
  readonly rows: readonly number[];
}

interface Sighting {
  readonly row: number;
  /** Place in the order of the repair's readings. */
  readonly place: number;
  readonly check: number;
  readonly word: PartWord;
  readonly inCircuit: boolean;
}

const BOARD = SPECIMENS.indexOf('board');

/**
 * The evidence of one repair for each part that its family declares or measures, by designator.
 * Only the board's own parts count, and only before they are refitted: later readings may be of new parts.
 * @param rows - the repair's rows of the log, in order of time
 */
export function evidenceOf(
  log: ReadingLog,
  verdicts: Uint8Array,
  rows: ArrayLike<number>,
  family: Family,
): ReadonlyMap<string, Evidence> {
  const sightings = collect(log, verdicts, rows, family);
  const evidence = new Map<string, Evidence>();
  for (const part of partsOf(family).all) evidence.set(part, ownEvidence(sightings.get(part) ?? []));
  const suspects = [...evidence].filter(([, own]) => own.finding === 'suspected');
  for (const [part, own] of suspects) {
    const others = maskedBy(family.parts, part);
    if (clearedByRemoval(part, others, sightings)) evidence.set(part, { finding: 'cleared', rows: own.rows });
  }
  for (const [part, own] of suspects) {
    if (evidence.get(part)?.finding === 'suspected')
      evidence.set(part, settle(own, maskedBy(family.parts, part), evidence));
  }
  return evidence;
}

/** What evidence asks of a family, for each of its repairs. */
interface FamilyParts {
  /** The parts that it declares or its points measure. */
  readonly all: ReadonlySet<string>;
  readonly ofPoint: ReadonlyMap<string, string | undefined>;
}

const familyParts = new WeakMap<Family, FamilyParts>();

function partsOf(family: Family): FamilyParts {
  const known = familyParts.get(family);
  if (known !== undefined) return known;
  const measured = family.points.flatMap((point) => point.part ?? []);
  const parts = {
    all: new Set([...family.parts.map((part) => part.designator), ...measured]),
    ofPoint: new Map(family.points.map((point) => [point.name, point.part])),
  };
  familyParts.set(family, parts);
  return parts;
}

function collect(
  log: ReadingLog,
  verdicts: Uint8Array,
  rows: ArrayLike<number>,
  family: Family,
): ReadonlyMap<string, readonly Sighting[]> {
  const { ofPoint } = partsOf(family);
  const sightings = new Map<string, Sighting[]>();
  const { checks, points } = log.names;
  for (let place = 0; place < rows.length; place += 1) {
    const row = rows[place]!;
    const check = log.check[row]!;
    const stage = checks.stage(check);
    if (log.specimen[row] !== BOARD || isPowered(stage) || stage === 'refitted') continue;
    const part = ofPoint.get(points.label(checks.pointCode(check)));
    const word = partWord(verdicts[row]!, checks.mode(check), log.value[row]!);
    if (part === undefined || word === undefined) continue;
    const sighting = { row, place, check, word, inCircuit: isInCircuit(stage) };
    const own = sightings.get(part);
    if (own) own.push(sighting);
    else sightings.set(part, [sighting]);
  }
  return sightings;
}

function ownEvidence(sightings: readonly Sighting[]): Evidence {
  const bad = sightings.filter((sighting) => sighting.word !== 'good');
  const good = sightings.filter((sighting) => sighting.word === 'good');
  const badOut = bad.filter((sighting) => !sighting.inCircuit);
  const goodOut = good.filter((sighting) => !sighting.inCircuit);
  if (badOut[0]) {
    const disputed = badOut.some((one) => goodOut.some((other) => other.check === one.check));
    return disputed
      ? { finding: 'contradictory', word: badOut[0].word, rows: rowsOf([...badOut, ...goodOut]) }
      : { finding: 'failed', word: badOut[0].word, proof: 'out of circuit', rows: rowsOf(badOut) };
  }
  if (goodOut.length > 0) return { finding: 'good', proof: 'out of circuit', rows: rowsOf(goodOut) };
  const open = bad.filter((sighting) => sighting.word === 'open');
  if (open.length > 0) return { finding: 'failed', word: 'open', proof: 'in circuit', rows: rowsOf(open) };
  if (bad[0]) return { finding: 'suspected', word: bad[0].word, rows: rowsOf(bad) };
  if (good.length > 0) return { finding: 'good', proof: 'in circuit', rows: rowsOf(good) };
  return { finding: 'not measured', rows: [] };
}

/** Whether a part that read bad in circuit read good there once a part across it had come out. */
function clearedByRemoval(
  part: string,
  others: readonly string[],
  sightings: ReadonlyMap<string, readonly Sighting[]>,
): boolean {
  const own = sightings.get(part) ?? [];
  const lastBad = Math.max(-1, ...own.filter((sighting) => sighting.word !== 'good').map((sighting) => sighting.place));
  const goodAfter = own.find((sighting) => sighting.word === 'good' && sighting.place > lastBad);
  if (goodAfter === undefined) return false;
  return others.some((other) =>
    sightings
      .get(other)
      ?.some((sighting) => !sighting.inCircuit && sighting.place > lastBad && sighting.place < goodAfter.place),
  );
}

function settle(own: Evidence, others: readonly string[], evidence: ReadonlyMap<string, Evidence>): Evidence {
  const inQuestion = others.filter((other) => !isCleared(evidence.get(other)));
  if (inQuestion.length > 0) return { ...own, maskedBy: inQuestion };
  return {
    ...own,
    finding: 'failed',
    proof: others.length === 0 ? 'nothing across it' : 'all others across it are good',
  };
}

function isCleared(evidence: Evidence | undefined): boolean {
  return evidence?.finding === 'good' || evidence?.finding === 'cleared';
}

function rowsOf(sightings: readonly Sighting[]): readonly number[] {
  return [...sightings].sort((a, b) => a.place - b.place).map((sighting) => sighting.row);
}

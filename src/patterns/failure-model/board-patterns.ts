import { maskingGroups, type Part } from '../../domain/family.ts';
import { compareParts, type ExaminedRepair } from '../examined-repair.ts';

/** Parts that share their nodes, read bad there, and were not settled one by one. */
export interface DoubtfulSet {
  readonly parts: readonly number[];
  /** Whether one of them at least has failed, since nothing else there explains the reading. */
  readonly oneFailed: boolean;
  /** Whether they were renewed while others could stay: had one failed and stayed, the board would not have worked. */
  readonly renewed: boolean;
}

/** What one board tells: parts by their place in a list of parts, each place at most once among good and failed. */
export interface BoardEvidence {
  readonly failed: readonly number[];
  readonly good: readonly number[];
  /** Of the good ones, those told so by having gone back as they were, across nodes that read bad, on a board that worked again. */
  readonly kept: readonly number[];
  /** Parts across nodes that read bad of which no reading of their own tells. */
  readonly doubtful: readonly DoubtfulSet[];
  /** Place in a list of complaints; missing where none was told. */
  readonly complaint?: number;
}

/** Boards that tell the same. */
export interface BoardPattern extends BoardEvidence {
  readonly count: number;
}

/** What the repairs of a family tell, in an order that does not hang on that of the repairs. */
export interface BoardPatterns {
  readonly parts: readonly string[];
  readonly complaints: readonly string[];
  readonly patterns: readonly BoardPattern[];
  /** The pattern of each repair, in the order of the repairs. */
  readonly ofRepair: readonly number[];
}

/**
 * What each repair tells of each part: failed, good, or nothing; equal ones are counted once.
 *
 * A part that was not read tells nothing, and is never taken for good. A good reading across two nodes clears every part there whose fault is a short:
 * of a part that failed open oftener than shorted or leaky only its own reading tells. Of parts that read bad together at least one has failed; those
 * that went back as they were on a board that worked again were not shorted.
 * @param parts - the family's parts with their nodes; parts that only evidence names stand alone
 */
export function boardPatterns(parts: readonly Part[], repairs: readonly ExaminedRepair[]): BoardPatterns {
  const names = new Set(parts.map(({ designator }) => designator));
  const complaints = new Set<string>();
  for (const { evidence, record } of repairs) {
    for (const part of evidence.keys()) names.add(part);
    if (record !== undefined && record.complaint !== '') complaints.add(record.complaint);
  }
  const layout = layoutOf([...names].sort(compareParts), parts, repairs);
  const allComplaints = [...complaints].sort(byCode);
  const complaintAt = new Map(allComplaints.map((complaint, at) => [complaint, at]));
  const found = new Map<string, BoardEvidence & { count: number }>();
  const keys = repairs.map((repair) => {
    const evidence = evidenceIn(layout, repair, complaintAt.get(repair.record?.complaint ?? ''));
    const key = JSON.stringify([
      evidence.complaint ?? -1,
      evidence.failed,
      evidence.good,
      evidence.kept,
      evidence.doubtful,
    ]);
    const known = found.get(key);
    if (known) known.count += 1;
    else found.set(key, { ...evidence, count: 1 });
    return key;
  });
  const sorted = [...found.keys()].sort(byCode);
  const placeOf = new Map(sorted.map((key, at) => [key, at]));
  return {
    parts: layout.parts,
    complaints: allComplaints,
    patterns: sorted.map((key) => found.get(key)!),
    ofRepair: keys.map((key) => placeOf.get(key)!),
  };
}

/** A family's parts by place, and which share their nodes. */
interface Layout {
  readonly parts: readonly string[];
  readonly at: ReadonlyMap<string, number>;
  readonly groups: readonly (readonly string[])[];
  /** Parts that failed open oftener than otherwise. */
  readonly failOpen: ReadonlySet<string>;
}

function layoutOf(names: readonly string[], parts: readonly Part[], repairs: readonly ExaminedRepair[]): Layout {
  const opens = new Map<string, number>();
  for (const { evidence, failed } of repairs) {
    for (const part of failed) {
      const step = evidence.get(part)?.word === 'open' ? 1 : -1;
      opens.set(part, (opens.get(part) ?? 0) + step);
    }
  }
  return {
    parts: names,
    at: new Map(names.map((name, at) => [name, at])),
    groups: maskingGroups(parts),
    failOpen: new Set([...opens].filter(([, more]) => more > 0).map(([part]) => part)),
  };
}

function evidenceIn(layout: Layout, repair: ExaminedRepair, complaint: number | undefined): BoardEvidence {
  const failed = new Set(repair.failed);
  const good = new Set<string>();
  for (const [part, { finding }] of repair.evidence) if (finding === 'good' || finding === 'cleared') good.add(part);
  const kept: string[] = [];
  const doubtful: (Omit<DoubtfulSet, 'parts'> & { readonly parts: readonly string[] })[] = [];
  for (const group of layout.groups) {
    const suspects = group.filter((part) => repair.evidence.get(part)?.finding === 'suspected');
    const isBad = suspects.length > 0 || group.some((part) => failed.has(part));
    const isClear = !isBad && group.some((part) => readsGoodInCircuit(repair, part));
    if (isClear) for (const part of group) if (isUnread(repair, part) && !layout.failOpen.has(part)) good.add(part);
    if (!isBad) continue;
    const open = group.filter((part) => !failed.has(part) && !good.has(part));
    const oneFailed =
      suspects.length > 0 && !group.some((part) => failed.has(part) && repair.evidence.get(part)?.word !== 'open');
    const renewed = open.filter((part) => !wentBackAsItWas(repair, part));
    const isTold = workedAfterRenewal(repair) && (renewed.length > 0 || !oneFailed);
    const left = isTold ? renewed : open;
    if (isTold) kept.push(...open.filter((part) => !renewed.includes(part)));
    if (left.length > 0 && (isTold || oneFailed)) doubtful.push({ parts: left, oneFailed, renewed: isTold });
  }
  for (const part of kept) good.add(part);
  const places = (some: Iterable<string>): readonly number[] =>
    [...some].map((part) => layout.at.get(part)!).sort((a, b) => a - b);
  return {
    failed: places(failed),
    good: places([...good].filter((part) => !failed.has(part))),
    kept: places(kept),
    doubtful: doubtful.map((set) => ({ ...set, parts: places(set.parts) })),
    ...(complaint !== undefined && { complaint }),
  };
}

function readsGoodInCircuit({ evidence }: ExaminedRepair, part: string): boolean {
  const own = evidence.get(part);
  return own?.finding === 'good' && own.proof === 'in circuit';
}

function isUnread({ evidence }: ExaminedRepair, part: string): boolean {
  const finding = evidence.get(part)?.finding;
  return finding === undefined || finding === 'not measured';
}

/** Whether a part of nodes that read short went back with the board as it was: had it been shorted, the board would not have worked. */
function wentBackAsItWas(repair: ExaminedRepair, part: string): boolean {
  const isShort = (repair.evidence.get(part)?.word ?? 'shorted') === 'shorted';
  return workedAfterRenewal(repair) && isShort && !repair.replaced.has(part);
}

function workedAfterRenewal({ record, replaced }: ExaminedRepair): boolean {
  return replaced.size > 0 && (record?.outcome === 'returned working' || record?.outcome === 'comeback');
}

/** By code units: the same on every machine. */
function byCode(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

import { countAlike } from './alike.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';
import { chancesGiven, type FailureModel } from './failure-model/failure-model.ts';

/** How often one part failed under one complaint. */
export interface LikelyPart {
  readonly part: string;
  /** Repairs under the complaint in which it is proved failed. */
  readonly count: number;
  /** And those in which it is told whether it had. */
  readonly read: number;
  /** Chance that it has failed on the next board: mean of the posterior. */
  readonly chance: number;
  /** Limits between which the chance lies with 95 %, by the posterior's equal tails. */
  readonly low: number;
  readonly high: number;
}

export interface ComplaintRow {
  readonly complaint: string;
  readonly repairs: number;
  /** Repairs in which nothing is proved failed. */
  readonly nothingProved: number;
  /** The likeliest first. */
  readonly likely: readonly LikelyPart[];
}

export interface ComplaintMatrix {
  /** In order of name. */
  readonly parts: readonly string[];
  /** Most repairs first. */
  readonly rows: readonly ComplaintRow[];
  /** Repairs without a record or with an empty complaint, which no row counts. */
  readonly withoutComplaint: number;
}

/**
 * Complaint against failed part, and for each complaint the likely parts in order.
 *
 * The chance of a part under a complaint is told by the family's failure model: a complaint met once or twice says little more than the family does.
 * @param model - of the same repairs
 */
export function complaintMatrix(repairs: readonly ExaminedRepair[], model: FailureModel): ComplaintMatrix {
  const { parts: names, patterns, ofRepair } = model.seen;
  const told = repairs
    .map(({ record, failed }, at) => ({ complaint: record?.complaint ?? '', failed, board: patterns[ofRepair[at]!]! }))
    .filter(({ complaint }) => complaint !== '');
  const overall = countParts(told.map(({ failed }) => failed));
  const parts = [...overall.keys()].sort(compareParts);
  const byComplaint = new Map<string, (typeof told)[number][]>();
  for (const one of told) {
    const own = byComplaint.get(one.complaint);
    if (own) own.push(one);
    else byComplaint.set(one.complaint, [one]);
  }
  const rows = [...byComplaint].map(([complaint, own]): ComplaintRow => {
    const counts = countParts(own.map(({ failed }) => failed));
    const read = new Uint32Array(names.length);
    for (const { board } of own) for (const part of [...board.failed, ...board.good]) read[part]! += 1;
    const chanceOf = chancesGiven(model, { complaint });
    const likely = parts.map((part): LikelyPart => {
      const told = { count: counts.get(part) ?? 0, read: read[names.indexOf(part)]! };
      return { part, ...told, ...chanceOf([part]) };
    });
    return {
      complaint,
      repairs: own.length,
      nothingProved: own.filter(({ failed }) => failed.length === 0).length,
      likely: likely.sort((a, b) => b.chance - a.chance || compareParts(a.part, b.part)),
    };
  });
  return {
    parts,
    rows: rows.sort((a, b) => b.repairs - a.repairs || compareParts(a.complaint, b.complaint)),
    withoutComplaint: repairs.length - told.length,
  };
}

function countParts(sets: readonly (readonly string[])[]): Map<string, number> {
  const counts = new Map<string, number>();
  for (const { list, count } of countAlike(sets)) {
    for (const part of list) counts.set(part, (counts.get(part) ?? 0) + count);
  }
  return counts;
}

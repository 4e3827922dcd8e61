import { betaQuantile } from '../statistics/distributions/beta.ts';
import { countAlike } from './alike.ts';
import { compareParts, type ExaminedRepair } from './examined-repair.ts';

/** How often one part failed under one complaint. */
export interface LikelyPart {
  readonly part: string;
  /** Repairs under the complaint in which it is proved failed. */
  readonly count: number;
  /** Chance that it has failed: mean of the posterior. */
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

/** What the family's share of a part weighs against the repairs under one complaint, in repairs. */
const PRIOR_REPAIRS = 4;

/**
 * Complaint against failed part, and for each complaint the likely parts in order.
 *
 * The chance of a part under a complaint is the mean of a beta posterior. Its prior is the part's share of all repairs of the family (with half
 * a failure more in one more repair), worth four repairs: a complaint met once or twice says little more than the family does.
 * Source: Gelman et al. 2013, Bayesian Data Analysis, 3rd ed., 2.4 (conjugate beta prior); its weight is common practice, no source.
 */
export function complaintMatrix(repairs: readonly ExaminedRepair[]): ComplaintMatrix {
  const told = repairs
    .map(({ record, failed }) => ({ complaint: record?.complaint ?? '', failed }))
    .filter(({ complaint }) => complaint !== '');
  const overall = countParts(told.map(({ failed }) => failed));
  const parts = [...overall.keys()].sort(compareParts);
  const byComplaint = new Map<string, (readonly string[])[]>();
  for (const { complaint, failed } of told) {
    const sets = byComplaint.get(complaint);
    if (sets) sets.push(failed);
    else byComplaint.set(complaint, [failed]);
  }
  const rows = [...byComplaint].map(([complaint, sets]): ComplaintRow => {
    const counts = countParts(sets);
    const likely = parts.map((part): LikelyPart => {
      const count = counts.get(part) ?? 0;
      const share = ((overall.get(part) ?? 0) + 0.5) / (told.length + 1);
      const [a, b] = [count + PRIOR_REPAIRS * share, sets.length - count + PRIOR_REPAIRS * (1 - share)];
      return { part, count, chance: a / (a + b), low: betaQuantile(0.025, a, b), high: betaQuantile(0.975, a, b) };
    });
    return {
      complaint,
      repairs: sets.length,
      nothingProved: sets.filter(({ length }) => length === 0).length,
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

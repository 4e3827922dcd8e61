import { countAlike } from './alike.ts';

/** What repairs needed, as numbers: parts by position, equal needs once with their count. */
export interface NeedTable {
  /** Rarest first, so that the search meets early what is cheap to leave out. */
  readonly parts: readonly string[];
  readonly needs: readonly { readonly parts: readonly number[]; readonly count: number }[];
  /** Positions in `needs` that hold a part, by part. */
  readonly holders: readonly (readonly number[])[];
  /** Repairs that needed a part. */
  readonly total: number;
}

/** What a search came to. */
export interface Exclusion {
  /** Positions of the parts left out. */
  readonly parts: readonly number[];
  /** Whether no better set exists; where the search was cut short, one may. */
  readonly proved: boolean;
}

/** Needs looked at after which a search settles for the best it has found: a second or so on a usual machine. */
const MOST_WORK = 50_000_000;
/** And for one size of a curve, of which there may be many. */
const MOST_WORK_OF_SIZE = 5_000_000;

/** Collects the needs of repairs; those of none are left out. */
export function needTable(needs: readonly { readonly parts: readonly string[] }[]): NeedTable {
  const alike = countAlike(needs.map(({ parts }) => parts));
  const counts = new Map<string, number>();
  for (const { list, count } of alike)
    for (const part of new Set(list)) counts.set(part, (counts.get(part) ?? 0) + count);
  const parts = [...counts.keys()].sort((a, b) => counts.get(a)! - counts.get(b)!);
  const place = new Map(parts.map((part, at) => [part, at]));
  const distinct = new Map<string, { readonly parts: readonly number[]; readonly count: number }>();
  for (const { list, count } of alike) {
    const own = [...new Set(list)].map((part) => place.get(part)!).sort((a, b) => a - b);
    if (own.length === 0) continue;
    const key = own.join();
    distinct.set(key, { parts: own, count: (distinct.get(key)?.count ?? 0) + count });
  }
  const sets = [...distinct.values()];
  const holders = parts.map((_, part) => [...sets.keys()].filter((at) => sets[at]!.parts.includes(part)));
  return { parts, needs: sets, holders, total: sets.reduce((sum, { count }) => sum + count, 0) };
}

/**
 * For each count from 0 up, the parts, exactly so many, without which fewest repairs are dropped, as long as these are at most `mayDrop`; never all
 * parts.
 * Branch and bound: a dropped repair weighs at least the sum of its even shares on the parts left out, so the smallest shares bound what is to come.
 * Each count starts from the best of the one before it, and one part more, and so has a good answer also where its search is cut short.
 * Cost: up to twenty parts well under a second; about tenfold for every six parts more, most of it where about half of the parts are left out.
 */
export function leastDrops(table: NeedTable, mayDrop: number): readonly Exclusion[] {
  const all: Exclusion[] = [];
  for (let count = 0; count < table.parts.length; count += 1) {
    const before = all.at(-1);
    const best = leastDrop(table, count, before === undefined ? [] : withOneMore(table, before.parts));
    if (dropOf(table, best.parts) > mayDrop) break;
    all.push(best);
  }
  return all;
}

function leastDrop(table: NeedTable, count: number, start: readonly number[]): Exclusion {
  let least = dropOf(table, start);
  let best = start;
  const proved = explore(table, MOST_WORK_OF_SIZE, (state, undecided) => {
    const toGo = count - state.excluded.length;
    if (toGo === 0 && state.dropped < least) [least, best] = [state.dropped, [...state.excluded]];
    if (toGo === 0 || undecided.length < toGo) return false;
    const smallest = Float64Array.from(undecided, ({ share }) => share)
      .sort()
      .subarray(0, toGo);
    // Repairs are whole: only one dropped less is better.
    return smallest.reduce((sum, share) => sum + share, state.dropped) <= least - 1 + SLACK;
  });
  return { parts: best, proved };
}

function withOneMore(table: NeedTable, excluded: readonly number[]): readonly number[] {
  const candidates = [...table.parts.keys()].filter((part) => !excluded.includes(part));
  const grown = candidates.map((part) => [...excluded, part]);
  return grown.reduce((a, b) => (dropOf(table, b) < dropOf(table, a) ? b : a));
}

/** Repairs that need one of these parts. */
export function dropOf(table: NeedTable, excluded: readonly number[]): number {
  const missing = new Set(excluded);
  return table.needs.reduce(
    (sum, { parts, count }) => (parts.some((part) => missing.has(part)) ? sum + count : sum),
    0,
  );
}

/**
 * The parts whose leaving out saves most while at most `mayDrop` repairs are dropped; of equal savings those that drop fewest.
 * Bounded by the fractional knapsack of the same even shares (Dantzig 1957, Operations Research 5:266-288).
 * @param prices - what each part costs, at least 0
 */
export function cheapestExclusion(table: NeedTable, mayDrop: number, prices: readonly number[]): Exclusion {
  let best = greedyExclusion(table, mayDrop, prices);
  let most = best.reduce((sum, part) => sum + prices[part]!, 0);
  let least = dropOf(table, best);
  const proved = explore(table, MOST_WORK, ({ excluded, dropped }, shares) => {
    if (dropped > mayDrop) return false;
    const saved = excluded.reduce((sum, part) => sum + prices[part]!, 0);
    if (saved > most || (saved === most && dropped < least)) [most, least, best] = [saved, dropped, [...excluded]];
    const bound = saved + knapsackBound(shares, prices, mayDrop - dropped);
    return bound > most + SLACK || (bound >= most - SLACK && dropped < least);
  });
  return { parts: best, proved };
}

/** Leaves out, one part after another, the one that saves most for each repair that it drops; a start for the search. */
function greedyExclusion(table: NeedTable, mayDrop: number, prices: readonly number[]): readonly number[] {
  const excluded: number[] = [];
  for (;;) {
    const dropped = dropOf(table, excluded);
    const candidates = [...table.parts.keys()]
      .filter((part) => !excluded.includes(part))
      .map((part) => ({ part, drops: dropOf(table, [...excluded, part]) - dropped }))
      .filter(({ drops }) => dropped + drops <= mayDrop);
    const [first, ...others] = candidates;
    if (first === undefined) return excluded;
    const worth = ({ part, drops }: (typeof candidates)[number]): number => prices[part]! / drops;
    excluded.push(others.reduce((a, b) => (worth(b) > worth(a) ? b : a), first).part);
  }
}

/** Rounding of shares must not cut off a branch that is just as good, nor keep one that cannot be better. */
const SLACK = 1e-9;

interface Walked {
  /** Parts left out so far. */
  readonly excluded: readonly number[];
  /** Repairs that need one of them. */
  readonly dropped: number;
}

interface PartShare {
  readonly part: number;
  /** The part's even share of the repairs still covered that need it, spread over their undecided parts. */
  readonly share: number;
}

/**
 * Walks all sets of parts to leave out, rarest part first; `visit` says whether a set is worth extending by the undecided parts it is given.
 * @param work - needs to look at before the walk is cut short
 * @returns whether it went to its end
 */
function explore(
  table: NeedTable,
  work: number,
  visit: (state: Walked, undecided: readonly PartShare[]) => boolean,
): boolean {
  let left = work;
  const hits = new Uint32Array(table.needs.length);
  const excluded: number[] = [];
  const walk = (from: number, dropped: number): void => {
    left -= table.needs.length;
    if (left < 0) return;
    const undecided = sharesFrom(table, hits, from);
    if (!visit({ excluded, dropped }, undecided)) return;
    for (let part = from; part < table.parts.length; part += 1) {
      let more = dropped;
      for (const at of table.holders[part]!) if (hits[at]!++ === 0) more += table.needs[at]!.count;
      excluded.push(part);
      walk(part + 1, more);
      excluded.pop();
      for (const at of table.holders[part]!) hits[at]! -= 1;
    }
  };
  walk(0, 0);
  return left >= 0;
}

function sharesFrom(table: NeedTable, hits: Uint32Array, from: number): readonly PartShare[] {
  const shares = new Float64Array(table.parts.length);
  table.needs.forEach(({ parts, count }, at) => {
    if (hits[at] !== 0) return;
    const open = parts.filter((part) => part >= from);
    for (const part of open) shares[part]! += count / open.length;
  });
  return Array.from({ length: table.parts.length - from }, (_, at) => ({ part: from + at, share: shares[from + at]! }));
}

function knapsackBound(shares: readonly PartShare[], prices: readonly number[], room: number): number {
  let left = room;
  let value = 0;
  const byWorth = [...shares].sort((a, b) => a.share * prices[b.part]! - b.share * prices[a.part]!);
  for (const { part, share } of byWorth) {
    if (share <= left) {
      value += prices[part]!;
      left -= share;
    } else {
      value += (prices[part]! * left) / share;
      break;
    }
  }
  return value;
}

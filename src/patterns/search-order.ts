/** One way in which the search can end: some checks reveal the fault, the first of them made does. */
export interface SearchCase {
  /** How often it happens; any unit, the same for all. */
  readonly weight: number;
  /** Positions of the checks that reveal it; with none, every check is made in vain. */
  readonly revealedBy: readonly number[];
}

/** How an order was found: by ratio of chance to cost, which is best under its conditions; by trying all orders; or step by step, near the best. */
export type SearchRule = 'ratio' | 'exact' | 'greedy';

export interface SearchOrder {
  /** Positions of the checks, the first to make first. */
  readonly order: readonly number[];
  /** Expected cost to the reading that reveals the fault. */
  readonly cost: number;
  readonly rule: SearchRule;
}

/** Most checks of which all orders are weighed; 2^18 sets of checks. */
const MOST_EXACT = 18;

/**
 * Mean cost of making checks in an order until one reveals the fault, over all cases by weight. Every check made is paid for, the last one too.
 * @param costs - of each check, above 0
 * @returns undefined where the cases weigh nothing
 */
export function expectedCost(
  order: readonly number[],
  costs: readonly number[],
  cases: readonly SearchCase[],
): number | undefined {
  const total = cases.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return undefined;
  let spent = 0;
  const paid = new Map(order.map((check) => [check, (spent += costs[check]!)]));
  const whole = cases.reduce((sum, { weight, revealedBy }) => {
    const first = revealedBy.reduce((least, check) => Math.min(least, paid.get(check) ?? Infinity), Infinity);
    return sum + weight * (first === Infinity ? spent : first);
  }, 0);
  return whole / total;
}

/** The checks by falling ratio of chance to cost; of equals the earlier position first. */
export function ratioOrder(costs: readonly number[], cases: readonly SearchCase[]): readonly number[] {
  const chances = costs.map(() => 0);
  for (const { weight, revealedBy } of cases) for (const check of revealedBy) chances[check]! += weight;
  return [...costs.keys()].sort((a, b) => chances[b]! / costs[b]! - chances[a]! / costs[a]!);
}

/**
 * The order of checks that reveals the fault at the least expected cost.
 *
 * By ratio of chance to cost where no case is revealed by more than one check: with one fault, perfect checks, and every check paid for, that
 * is the best order (Simon and Kadane 1975, Artificial Intelligence 6:235-247). It is not where the last check may be inferred instead of made,
 * and not where one fault shows at several checks. In the latter case all orders are weighed by dynamic programming over the sets of checks made
 * (Held and Karp 1962, Journal of SIAM 10:196-210) for up to 18 checks. Beyond, each next check is the one with the best ratio over
 * the cases still open, at most four times as dear as the best (Feige, Lovász and Tetali 2004, Algorithmica 40:219-234).
 *
 * @param costs - of each check, above 0
 * @returns undefined without checks, or where the cases weigh nothing
 */
export function bestSearchOrder(costs: readonly number[], cases: readonly SearchCase[]): SearchOrder | undefined {
  const overlaps = cases.some(({ revealedBy }) => revealedBy.length > 1);
  const rule = overlaps ? (costs.length <= MOST_EXACT ? 'exact' : 'greedy') : 'ratio';
  const find = { ratio: ratioOrder, exact: exactOrder, greedy: greedyOrder }[rule];
  const order = find(costs, cases);
  const cost = expectedCost(order, costs, cases);
  return cost === undefined || order.length === 0 ? undefined : { order, cost, rule };
}

function exactOrder(costs: readonly number[], cases: readonly SearchCase[]): readonly number[] {
  const open = openWeights(costs.length, cases);
  const full = open.length - 1;
  const rest = new Float64Array(open.length);
  const next = new Uint8Array(open.length);
  for (let made = full - 1; made >= 0; made -= 1) {
    rest[made] = Infinity;
    for (let check = 0; check < costs.length; check += 1) {
      if ((made >> check) & 1) continue;
      const cost = costs[check]! * open[made]! + rest[made | (1 << check)]!;
      if (cost >= rest[made]!) continue;
      rest[made] = cost;
      next[made] = check;
    }
  }
  const order: number[] = [];
  for (let made = 0; made !== full; made |= 1 << order.at(-1)!) order.push(next[made]!);
  return order;
}

/** For each set of checks made, the weight of the cases that none of them reveals. */
function openWeights(checks: number, cases: readonly SearchCase[]): Float64Array {
  const full = (1 << checks) - 1;
  const open = new Float64Array(full + 1);
  for (const { weight, revealedBy } of cases) {
    const hidden = full & ~revealedBy.reduce((bits, check) => bits | (1 << check), 0);
    open[hidden]! += weight;
  }
  // Sums over all larger sets, one check at a time.
  for (let check = 0; check < checks; check += 1) {
    for (let made = 0; made <= full; made += 1) if (!((made >> check) & 1)) open[made]! += open[made | (1 << check)]!;
  }
  return open;
}

function greedyOrder(costs: readonly number[], cases: readonly SearchCase[]): readonly number[] {
  const order: number[] = [];
  let open = cases;
  while (order.length < costs.length) {
    const next = ratioOrder(costs, open).find((check) => !order.includes(check))!;
    order.push(next);
    open = open.filter(({ revealedBy }) => !revealedBy.includes(next));
  }
  return order;
}

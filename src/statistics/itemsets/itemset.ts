/** Items found together, as ascending indices, and in how many transactions. */
export interface Itemset {
  readonly items: readonly number[];
  readonly count: number;
}

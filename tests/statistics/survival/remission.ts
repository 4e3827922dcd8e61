import type { Lifetimes } from '../../../src/statistics/survival/lifetimes.ts';

/**
 * Weeks of remission under 6-mercaptopurine and under placebo. Source: Freireich et al. 1963, Blood 21:699-716; Gehan
 * 1965, Biometrika 52:203-223.
 */
export const mercaptopurine: Lifetimes = {
  times: Object.freeze([6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35]),
  events: Object.freeze(
    [1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0].map((relapsed) => relapsed === 1),
  ),
};

export const placebo: Lifetimes = {
  times: Object.freeze([1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23]),
  events: Object.freeze(new Array<boolean>(21).fill(true)),
};

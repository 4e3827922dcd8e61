import type { Mode, Stage } from './reading.ts';

/** What is measured: one point of one family, at one stage, in one mode. Bands are set and readings compared per check. */
export interface Check {
  readonly family: string;
  readonly point: string;
  readonly stage: Stage;
  readonly mode: Mode;
}

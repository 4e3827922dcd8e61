import type { Check } from '../../domain/check.ts';
import type { ComplaintMatrix } from '../../patterns/complaints.ts';
import type { Holding, HoldingTimes } from '../../patterns/do-repairs-hold.ts';
import type { PartPair } from '../../patterns/failing-together.ts';
import type { FailureSignature } from '../../patterns/failure-signatures.ts';
import type { InCircuitVerdict } from '../../patterns/in-circuit-verdicts.ts';
import type { MaskedFailures } from '../../patterns/masked-failures.ts';
import type { MeterOffsets, MeterPeriod } from '../../patterns/meter-offsets.ts';
import type { PartOverTime } from '../../patterns/over-time.ts';
import type { PartFailureCount } from '../../patterns/part-failures.ts';
import type { PartsKit } from '../../patterns/parts-kit.ts';
import type { BoardSoFar, ProbingOrder } from '../../patterns/probing-order.ts';
import type { Renewal } from '../../patterns/renewal.ts';
import type { ClassContrast } from '../../patterns/standing-out.ts';
import type { PartStock } from '../../patterns/stock.ts';
import type { WhetherItPays } from '../../patterns/whether-it-pays.ts';
import type { LogRank } from '../../statistics/survival/log-rank.ts';
import type { PastPoints } from './bands.ts';

export type { Holding } from '../../patterns/do-repairs-hold.ts';

/** Which repairs of a family to look at, and what to work out from them. */
export interface FamilyQuery {
  readonly family: string;
  /** Begun on this day or later; local wall milliseconds counted as if UTC, as all times. */
  readonly from?: number;
  readonly to?: number;
  readonly complaint?: string;
  /** Repairs with a reading by this meter. */
  readonly meter?: string;
  /** The day up to which boards were watched for coming back. */
  readonly today: number;
  /** Share of repairs that a parts kit shall cover, above 0 and up to 1. */
  readonly kitShare: number;
  readonly stockWeeks: number;
  /** Probability with which the stock shall suffice, between 0 and 1. */
  readonly stockEnough: number;
  /** Price of each part, in the bench's money. */
  readonly prices?: readonly (readonly [string, number])[];
  readonly fee?: number;
  /** What is known of a board on the bench, to narrow what to probe first. */
  readonly soFar?: BoardSoFar;
}

/** Do repairs hold: time until a board came back. */
export interface HoldingAnswer {
  readonly all: Holding | undefined;
  readonly leftOut: HoldingTimes['leftOut'];
  readonly groups: readonly { readonly renewal: Renewal; readonly holding: Holding | undefined }[];
  /** Only what measured bad against the whole group renewed. */
  readonly renewalTest: LogRank | undefined;
  readonly others: Holding | undefined;
  readonly othersTest: LogRank | undefined;
}

/** How a family fails, and what to do about it. What is undefined rests on too few repairs to say. */
export interface FamilyPage {
  readonly family: string;
  readonly allRepairs: number;
  /** Repairs that pass the query. */
  readonly repairs: number;
  readonly choices: {
    readonly complaints: readonly string[];
    readonly meters: readonly string[];
    readonly first: number;
    readonly last: number;
  };
  readonly failures: readonly PartFailureCount[];
  readonly masked: MaskedFailures;
  readonly inCircuit: readonly InCircuitVerdict[];
  readonly pairs: readonly PartPair[];
  readonly signatures: readonly FailureSignature[];
  readonly complaints: ComplaintMatrix;
  readonly standingOut: readonly ClassContrast[] | undefined;
  readonly overTime: readonly PartOverTime[];
  readonly holding: HoldingAnswer;
  readonly live: readonly { readonly check: Check; readonly points: PastPoints }[];
  readonly probing: ProbingOrder | undefined;
  readonly kit: PartsKit | undefined;
  readonly kitCurve: readonly PartsKit[];
  readonly stock: readonly PartStock[] | undefined;
  readonly pays: WhetherItPays;
}

/** What readings say of the meters that took them. */
export interface MetersOverview extends MeterOffsets {
  readonly periods: readonly (MeterPeriod & {
    /** Readings whose place in or out of band the offset may have turned. */
    readonly turned: number;
  })[];
}

export type PartFailures = PartFailureCount;

export interface FamilyPatterns {
  readonly family: string;
  readonly repairs: number;
  readonly parts: readonly PartFailures[];
}

export interface FamilyLine {
  readonly family: string;
  readonly repairs: number;
  readonly readings: number;
  readonly outOfBand: number;
  readonly comebacks: number;
  readonly bands: number;
}

/** How families fail. */
export interface FamilyCalls {
  families(): readonly FamilyLine[];
  family(name: string): FamilyPatterns | undefined;
  familyPage(query: FamilyQuery): FamilyPage | undefined;
  metersOverview(): MetersOverview;
}

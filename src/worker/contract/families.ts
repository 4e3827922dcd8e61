import type { Limits } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { Unit } from '../../domain/quantity.ts';
import type { Outcome } from '../../domain/repair.ts';
import type { ComplaintMatrix } from '../../patterns/complaints.ts';
import type { Holding, HoldingTimes } from '../../patterns/do-repairs-hold.ts';
import type { PartPair } from '../../patterns/failing-together.ts';
import type { FailureSignature } from '../../patterns/failure-signatures.ts';
import type { InCircuitVerdict } from '../../patterns/in-circuit-verdicts.ts';
import type { MeterOffsets, MeterPeriod } from '../../patterns/meter-offsets.ts';
import type { PartOverTime } from '../../patterns/over-time.ts';
import type { PartFailureCount } from '../../patterns/part-failures.ts';
import type { PartRate } from '../../patterns/part-rates.ts';
import type { KitCoverage, PartsKit } from '../../patterns/parts-kit.ts';
import type { BoardSoFar, ProbingOrder } from '../../patterns/probing-order.ts';
import type { Renewal } from '../../patterns/renewal.ts';
import type { ClassContrast } from '../../patterns/standing-out.ts';
import type { PartStock } from '../../patterns/stock.ts';
import type { WhetherItPays } from '../../patterns/whether-it-pays.ts';
import type { LogRank } from '../../statistics/survival/log-rank.ts';

export type { Holding } from '../../patterns/do-repairs-hold.ts';

/** Which repairs are looked at. */
export interface RepairsChosen {
  /** Begun on this day or later; local wall milliseconds counted as if UTC, as all times. */
  readonly from?: number;
  readonly to?: number;
  readonly complaint?: string;
  /** With a reading by this meter. */
  readonly meter?: string;
  /** Repaired at this workplace. */
  readonly bench?: string;
}

/** The repairs that a mark of a chart counts. Of several parts, all must fit. */
export interface RepairsQuery extends RepairsChosen {
  readonly family?: string;
  readonly outcome?: Outcome;
  /** Whose board came back later. */
  readonly cameBack?: boolean;
  /** Parts proved failed. */
  readonly failed?: readonly string[];
  /** Parts suspected, and not proved to have failed. */
  readonly suspected?: readonly string[];
  readonly replaced?: readonly string[];
  /** Parts replaced although they had measured good out of circuit. */
  readonly replacedGood?: readonly string[];
  /** Parts that read shorted or leaky in circuit before anything was refitted. */
  readonly readBad?: readonly string[];
  /** Class letters of a part proved failed, such as Q. */
  readonly failedClass?: string;
  /** Parts of a kit that does not cover the repair. */
  readonly beyondKit?: readonly string[];
}

/** Which repairs of a family to look at, and what to work out from them. */
export interface FamilyQuery extends RepairsChosen {
  readonly family: string;
  /** The day up to which boards were watched for coming back; without one, the last on which the bench was at work. */
  readonly watched?: number;
  /** Share of repairs that a parts kit shall cover, above 0 and up to 1. */
  readonly kitShare: number;
  readonly stockWeeks: number;
  /** Probability with which the stock shall suffice, between 0 and 1. */
  readonly stockEnough: number;
  /** Price of each part in place of what the bench's settings say, in its currency. */
  readonly prices?: readonly (readonly [string, number])[];
  /** Fee for a board in place of what the bench's settings say. */
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

/** What the filters of a family's page can be set to. */
export interface FamilyChoices {
  readonly complaints: readonly string[];
  readonly meters: readonly string[];
  readonly benches: readonly string[];
  /** When the first and the last of its repairs began; infinite where none has a date. */
  readonly first: number;
  readonly last: number;
}

/** Numbers read at one point. */
export interface LiveNumbers {
  readonly count: number;
  /** The different ones among them, ascending. */
  readonly values: Float64Array;
  /** How many lie within the band's own limits; undefined where it has none. */
  readonly within: number | undefined;
}

/** What boards under power read at one point in one mode. */
export interface LivePoints {
  readonly check: Check;
  readonly unit: Unit;
  /** Read before the last work on a board, in the unit. */
  readonly received: LiveNumbers;
  /** Read after it, as the board went back. */
  readonly returned: LiveNumbers;
  /** Answers without a number: over-range and the like. */
  readonly without: number;
  /** Power of ten of the coarsest last digit shown. */
  readonly lastDigit: number;
  /** Of the band, where it has limits of its own. */
  readonly limits?: Limits;
}

/** Two families side by side. */
export interface FamiliesBeside {
  readonly families: readonly [FamilySide, FamilySide];
  /** Classes of parts by the share of repairs with a reading of a part in which one is proved failed; undefined where either has no such repair. */
  readonly classes: readonly ClassContrast[] | undefined;
  /** Whether one holds better; undefined where too few came back to tell. */
  readonly holdingTest: LogRank | undefined;
  readonly watched: number;
}

export interface FamilySide {
  readonly family: string;
  readonly repairs: number;
  readonly failures: readonly PartFailureCount[];
  readonly holding: Holding | undefined;
  readonly pays: WhetherItPays;
}

/** How a family fails, and what to do about it. What is undefined rests on too few repairs to say. */
export interface FamilyPage {
  readonly family: string;
  readonly allRepairs: number;
  /** Repairs that pass the query. */
  readonly repairs: number;
  /** Those of which no reading tells of any part. */
  readonly unmeasured: number;
  /** Their ids, where they are few enough to be named one by one; else none. */
  readonly chosen: readonly string[];
  readonly choices: FamilyChoices;
  /** The family's test points with readings. */
  readonly points: readonly string[];
  /** The day up to which boards were watched for coming back; 0 where nothing has a date. */
  readonly watched: number;
  /** Repairs begun on days on which the bench was not at work: mistyped, they are left out of weeks and of stock. */
  readonly misdated: readonly string[];
  /** Prices and fee that hold here. */
  readonly prices: readonly (readonly [string, number])[];
  readonly fee: number | undefined;
  readonly failures: readonly PartFailureCount[];
  /** Parts that one check read both bad and good out of circuit, by the repair: they count neither as failed nor as good. */
  readonly contradictory: readonly { readonly part: string; readonly repair: string }[];
  /** How often each part fails, unread and masked ones by the family's failure model. */
  readonly masked: { readonly parts: readonly PartRate[] };
  readonly inCircuit: readonly InCircuitVerdict[];
  readonly pairs: readonly PartPair[];
  readonly signatures: readonly FailureSignature[];
  readonly complaints: ComplaintMatrix;
  readonly standingOut: readonly ClassContrast[] | undefined;
  readonly overTime: readonly PartOverTime[];
  readonly holding: HoldingAnswer;
  readonly live: readonly LivePoints[];
  readonly probing: ProbingOrder | undefined;
  readonly kit: PartsKit | undefined;
  readonly kitCurve: readonly KitCoverage[];
  readonly stock: readonly PartStock[] | undefined;
  readonly pays: WhetherItPays;
}

/** What readings say of the meters that took them. */
export interface MetersOverview extends MeterOffsets {
  readonly periods: readonly (MeterPeriod & {
    /** Live voltages whose place in or out of band the offset may have turned. */
    readonly turned: number;
    /** The repairs that they are of. */
    readonly turnedIn: readonly string[];
  })[];
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
  familyPage(query: FamilyQuery): FamilyPage | undefined;
  /** This family and another by the same filters; undefined where either is not known. */
  familiesBeside(query: FamilyQuery, other: string): FamiliesBeside | undefined;
  /** Ids of the repairs that a mark of a chart counts. */
  repairsWhere(query: RepairsQuery): readonly string[];
  metersOverview(): MetersOverview;
}

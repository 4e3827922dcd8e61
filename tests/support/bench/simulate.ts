import type { Reading } from '../../../src/domain/reading.ts';
import type { Repair } from '../../../src/domain/repair.ts';
import { Board, drawFailures, type Failure } from './board.ts';
import { addDays, Calendar, dayOf } from './calendar.ts';
import { offsetAt, SIMULATED_METERS } from './meters.ts';
import type { FamilyModel, Story } from './model.ts';
import { CAREFUL, inWeekOf, noted, stamped, type Habits } from './habits.ts';
import { Notebook, type LiveTruth } from './notebook.ts';
import { Random, type Weighted } from './random.ts';
import { FAMILY_MODELS } from './scenario.ts';
import { workOn } from './technician.ts';

/** Why a board will come back. */
export type ComebackReason = 'missed part' | 'bad joint' | 'weak new part';

/** What nobody on the bench knows of a repair. */
export interface RepairTruth {
  readonly repair: string;
  readonly family: string;
  /** The name of the story by which it failed. */
  readonly story: string;
  readonly cause: 'part' | 'bad joint' | 'none';
  /** The parts that had really failed as received, the first one first; `after` names the part that took it along. */
  readonly failed: readonly Failure[];
  /** The true values behind the readings under power. */
  readonly live: readonly LiveTruth[];
  /** Whether it will come back, and why, also where that lies beyond the last simulated repair. */
  readonly comesBack?: ComebackReason;
}

/** How a meter truly errs, in percent of reading. */
export interface MeterTruth {
  readonly meter: string;
  readonly offset: number;
  /** From this time on (milliseconds) it reads `offset` percent too high instead. */
  readonly drift?: { readonly since: number; readonly offset: number };
}

export interface SimulatedBench {
  readonly readings: readonly Reading[];
  readonly repairs: readonly Repair[];
  readonly truth: readonly RepairTruth[];
  readonly meters: readonly MeterTruth[];
}

export interface BenchOptions {
  readonly seed: number;
  /** How many repairs, comebacks included. */
  readonly repairs: number;
  /** Boards taken up on a working day, on average. */
  readonly perDay?: number;
  /** What it does by habit; careful where nothing is said. */
  readonly habits?: Habits;
}

interface Due {
  readonly day: number;
  readonly of: string;
  readonly family: FamilyModel;
  readonly story: Story;
  readonly first: Failure | undefined;
}

/**
 * Simulates the bench Tern Lane. The same options give the same result on every machine. The fault model:
 *
 * - **What fails.** Each family has stories, drawn by weight. A story starts with one part that is shorted, leaky or
 *   open (sometimes one of several), and each part that it can take along fails too by its own chance. A story may
 *   instead be a bad joint, or no fault.
 * - **Complaints** are drawn by the story's weights, so that a complaint points to several stories, each more or
 *   less.
 * - **In circuit** all parts across the same two nodes read as the worst of them: one short is a short at every
 *   point of the group. An open transistor, controller or capacitor does not show in circuit; a good part reads its
 *   neighbours along with it.
 * - **As received** the bench probes the family's parts in order, hunting down shorts and opens and passing over
 *   about one point in eight of the rest, so that a leaky part can be missed. With nothing bad it measures the rails
 *   under power, where the story's symptoms show.
 * - **Part out.** Suspects are lifted, fuses less often, sometimes beside a new part. In a masking group the bench
 *   often stops at the first bad part, and sometimes even at a good one, which leaves open which had failed.
 * - **Replaced is not failed.** Beside what is bad, a group is renewed whole or by habit, and what usually goes
 *   along is renewed as a precaution. In CURLEW-60 the clamp D13 is the usual culprit on the 18 V rail, yet habit
 *   renews D11 and D12.
 * - **Refitted** the same points are measured again; where a group still reads bad the rest of it is lifted.
 * - **Live and run-in** mains, bulk, standby, main rails and backlight are measured; on some boards the logger
 *   follows a rail by the minute.
 * - **Outcomes.** Many bad parts often make a board not worth repairing; without a fault found nothing is replaced.
 *   The last few are still open.
 * - **Comebacks.** A missed part brings a board back for certain, a bad joint in one of four, a weak new part in one
 *   of twenty-five, after five days or more. The new repair fails by the same part; the earlier one's outcome
 *   becomes *comeback*.
 * - **Meters** err by a gain, by noise of a sixth of their stated accuracy, by their leads, and by their digits. M2
 *   reads 1.6 % high in every mode that is a number from 16 February 2026 on, and right before.
 * - **Two benches** share the work by lot, the one at the window three boards of five.
 * - **Habits** ({@link Habits}) change what is measured and noted, and how often stories happen; the truth stays as it was drawn.
 * - **Time** goes on from reading to reading, part by part, Monday to Friday, one board after another.
 */
export function simulateBench({ seed, repairs: count, perDay = 2.5, habits = CAREFUL }: BenchOptions): SimulatedBench {
  const random = new Random(seed);
  const places = new Random(seed + PLACES_SEED);
  const habitual = new Random(seed + HABITS_SEED);
  const calendar = new Calendar((day) => perDay * inWeekOf(day, habits.pace));
  const readings: Reading[] = [];
  const repairs: Repair[] = [];
  const truth: RepairTruth[] = [];
  const indexOf = new Map<string, number>();
  const due: Due[] = [];

  for (let number = 1; number <= count; number++) {
    const start = calendar.next();
    const id = `T-${String(number).padStart(4, '0')}`;
    const back = takeDue(due, start);
    const family =
      back?.family ?? random.pick(FAMILY_MODELS.map((model) => [model, model.since <= start ? model.weight : 0]));
    const story =
      back?.story ??
      random.pick(family.stories.map((one) => [one, one.weight * inWeekOf(start, habits.stories[one.name] ?? [])]));
    const failed = drawFailures(story, random, back?.first);
    const revision = habitual.chance(habits.revision.share) ? habits.revision.rails : 1;
    const board = new Board(family, story, failed, random, revision);
    const notebook = new Notebook(readings, id, family.name, start, random, habits.meters[family.name]);
    const workplace = places.pick(BENCHES);
    const complaint = random.pick(story.complaints);
    const { outcome, replaced } = workOn(board, notebook, random, { workplace, habits, random: habitual });
    calendar.busyUntil(notebook.clock + 1000 * Math.round(120 + random.exponential(480)));

    const stillOpen = number > count - 3 && outcome === 'returned working';
    const comesBack =
      outcome === 'returned working' && !stillOpen ? comebackReason(board, replaced, random) : undefined;
    const returned = addDays(dayOf(notebook.clock), random.whole(0, 2));
    if (comesBack) {
      const [missed] = board.failures;
      const day = addDays(returned, 5 + Math.floor(random.exponential(14)));
      due.push({ day, of: id, family, story, first: missed ? { part: missed.part, how: 'shorted' } : failed[0] });
    }
    if (back) {
      const earlier = indexOf.get(back.of);
      const ended = earlier === undefined ? undefined : repairs[earlier];
      if (earlier !== undefined && ended) repairs[earlier] = { ...ended, outcome: 'comeback' };
    }
    indexOf.set(id, repairs.length);
    repairs.push({
      id,
      family: family.name,
      complaint,
      received: addDays(dayOf(start), -random.whole(1, 4)),
      returned: stillOpen ? NaN : returned,
      outcome: stillOpen ? 'open' : outcome,
      replaced,
      ...(back ? { comebackOf: back.of } : {}),
      bench: workplace,
    });
    truth.push({
      repair: id,
      family: family.name,
      story: story.name,
      cause: story.joint ? 'bad joint' : failed.length > 0 ? 'part' : 'none',
      failed,
      live: notebook.live,
      ...(comesBack ? { comesBack } : {}),
    });
  }
  return {
    readings: stamped(readings, habits),
    repairs: noted(repairs, habits, habitual),
    truth,
    meters: METER_TRUTH,
  };
}

const BENCHES: Weighted<string> = [['window', 3], ['door', 2]]; // prettier-ignore
/** Benches are drawn by numbers of their own, so that they change nothing else. */
const PLACES_SEED = 7919;
const HABITS_SEED = 104_729;

const METER_TRUTH: readonly MeterTruth[] = Object.values(SIMULATED_METERS).map((meter) => ({
  meter: meter.name,
  offset: offsetAt(meter, -Infinity),
  ...(meter.drift ? { drift: meter.drift } : {}),
}));

/** The board that has waited longest of those that have come back by then. */
function takeDue(due: Due[], time: number): Due | undefined {
  const index = due.findIndex(({ day }) => day <= time);
  return index < 0 ? undefined : due.splice(index, 1)[0];
}

function comebackReason(board: Board, replaced: readonly string[], random: Random): ComebackReason | undefined {
  if (board.failures.length > 0) return 'missed part';
  if (board.story.joint) return random.chance(0.25) ? 'bad joint' : undefined;
  return replaced.length > 0 && random.chance(0.04) ? 'weak new part' : undefined;
}

import type { Reading } from '../../../src/domain/reading.ts';
import type { Repair } from '../../../src/domain/repair.ts';
import type { Random } from './random.ts';
import { startOfBench } from './calendar.ts';

/** A factor or a share that holds from the given week of the bench on, weeks ascending; 1 before the first. */
export type ByWeek = readonly { readonly fromWeek: number; readonly is: number }[];

/** What a bench does by habit, whatever the trade says. Chances and shares lie between 0 and 1. */
export interface Habits {
  /** Chance that probing as received ends at the first bad part that is no fuse; what else failed is renewed unmeasured, or missed. */
  readonly stopsWhenFound: number;
  /** Chance that suspects across the same nodes are renewed without being lifted. */
  readonly swapsUnmeasured: number;
  /** Chance that a part is not probed as received, by designator. */
  readonly leavesUnread: Readonly<Record<string, number>>;
  /** The same of all other parts. */
  readonly leavesOthersUnread: number;
  /** By how much a workplace leaves more parts unread, or fewer: a factor on the chances. */
  readonly workplaces: Readonly<Record<string, number>>;
  /** Share of boards that are measured at all before parts are renewed. */
  readonly measures: ByWeek;
  /** Factor on how many boards are taken up. */
  readonly pace: ByWeek;
  /** Factor on the weight of a story, by its name. */
  readonly stories: Readonly<Record<string, ByWeek>>;
  /** A second revision: the share of its boards, and the factor on its main rails. */
  readonly revision: { readonly share: number; readonly rails: number };
  /** The one meter that reads a family, by its name, instead of those that are at hand. */
  readonly meters: Readonly<Record<string, string>>;
  /** To what times are written down, in milliseconds. */
  readonly stamps: number;
  /** Chance that an outcome is noted without naming the earlier repair, or the link without the outcome. */
  readonly halfNoted: number;
  /** Chance that a repair is entered days after it was received. */
  readonly notedLate: number;
  /** Chance that a name is spelled another way. */
  readonly misspells: number;
}

/** A bench that goes by the trade. */
export const CAREFUL: Habits = {
  stopsWhenFound: 0,
  swapsUnmeasured: 0,
  leavesUnread: {},
  leavesOthersUnread: 0,
  workplaces: {},
  measures: [],
  pace: [],
  stories: {},
  revision: { share: 0, rails: 1 },
  meters: {},
  stamps: 1,
  halfNoted: 0,
  notedLate: 0,
  misspells: 0,
};

/** A bench in a hurry: it stops at what it finds, swaps, and leaves out what seldom fails, one workplace more than the other. */
const HURRIED: Habits = {
  ...CAREFUL,
  stopsWhenFound: 0.8,
  swapsUnmeasured: 0.35,
  leavesUnread: { U1: 0.6, U2: 0.6, R1: 0.5, D1: 0.3 },
  leavesOthersUnread: 0.15,
  workplaces: { window: 0.6, door: 1.5 },
  stamps: 60_000,
  halfNoted: 0.3,
};

/** The named settings. */
export const HABITS = {
  careful: CAREFUL,
  hurried: HURRIED,
  'seldom measures': { ...HURRIED, measures: [{ fromWeek: 0, is: 0.4 }] },
  'measures more': { ...HURRIED, measures: [{ fromWeek: 0, is: 0.3 }, { fromWeek: 12, is: 0.9 }] },
  'takes more boards': { ...HURRIED, pace: [{ fromWeek: 12, is: 2.5 }] },
  'rates change': {
    ...HURRIED,
    stories: { 'boost transistor': [{ fromWeek: 12, is: 0.3 }], 'backlight transistor': [{ fromWeek: 12, is: 4 }] },
  },
  'careful, rates change': {
    ...CAREFUL,
    stories: { 'boost transistor': [{ fromWeek: 12, is: 0.3 }], 'backlight transistor': [{ fromWeek: 12, is: 4 }] },
  },
  'two revisions': { ...CAREFUL, revision: { share: 0.4, rails: 1.03 } },
  'meters apart': { ...CAREFUL, meters: { 'PLOVER-32': 'M1', 'HERON-48': 'M1', 'CURLEW-60': 'M2', 'SISKIN-40': 'M2' } },
  'untidy papers': { ...CAREFUL, notedLate: 0.3, halfNoted: 0.5, misspells: 0.1, stamps: 60_000 },
} as const satisfies Record<string, Habits>; // prettier-ignore
export type HabitName = keyof typeof HABITS;

const WEEK = 7 * 86_400_000;

/** What holds in the week of a time. */
export function inWeekOf(time: number, byWeek: ByWeek): number {
  const week = Math.floor((time - startOfBench) / WEEK);
  return byWeek.findLast(({ fromWeek }) => fromWeek <= week)?.is ?? 1;
}

/** The chance that a workplace leaves a part unread. */
export function chanceUnread(habits: Habits, part: string, workplace: string): number {
  const chance = habits.leavesUnread[part] ?? habits.leavesOthersUnread;
  return Math.min(0.95, chance * (habits.workplaces[workplace] ?? 1));
}

/** Readings as they are written down: to the minute where the bench notes no seconds. */
export function stamped(readings: readonly Reading[], { stamps }: Habits): readonly Reading[] {
  if (stamps <= 1) return readings;
  return readings.map((reading) => ({ ...reading, time: Math.floor(reading.time / stamps) * stamps }));
}

/** Records as they are written down: some late, some with half of a comeback, some misspelled. */
export function noted(repairs: readonly Repair[], habits: Habits, random: Random): readonly Repair[] {
  return repairs.map((repair) => spelled(halfNoted(late(repair, habits, random), habits, random), habits, random));
}

function late(repair: Repair, { notedLate }: Habits, random: Random): Repair {
  if (!random.chance(notedLate)) return repair;
  const received = repair.received + random.whole(1, 4) * 86_400_000;
  return { ...repair, received: Number.isNaN(repair.returned) ? received : Math.min(received, repair.returned) };
}

function halfNoted(repair: Repair, { halfNoted: chance }: Habits, random: Random): Repair {
  const { comebackOf, ...first } = repair;
  const outcome = repair.outcome === 'comeback' && random.chance(chance / 2) ? 'returned working' : repair.outcome;
  const isUnlinked = comebackOf === undefined || random.chance(chance / 2);
  return { ...first, outcome, ...(isUnlinked ? {} : { comebackOf }) };
}

function spelled(repair: Repair, { misspells }: Habits, random: Random): Repair {
  const other = (name: string): string => {
    if (!random.chance(misspells)) return name;
    return random.pick([[name.toUpperCase(), 1], [`${name} `, 1], [name.replaceAll(' ', '  '), 1], [name.toLowerCase(), 1]]); // prettier-ignore
  };
  return { ...repair, complaint: other(repair.complaint), replaced: repair.replaced.map(other) };
}

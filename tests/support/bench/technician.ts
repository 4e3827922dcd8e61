import type { Stage } from '../../../src/domain/reading.ts';
import type { Board } from './board.ts';
import { chanceUnread, inWeekOf, type Habits } from './habits.ts';
import { circuitMode, outModes, type PartModel } from './model.ts';
import type { Notebook } from './notebook.ts';
import type { Random } from './random.ts';

/** What became of a board on the bench. */
export interface Work {
  readonly outcome: 'returned working' | 'not worth repairing' | 'no fault found';
  readonly replaced: readonly string[];
}

/** Who works on a board. */
export interface Hand {
  readonly workplace: string;
  readonly habits: Habits;
  /** Habits are drawn by numbers of their own, so that a careful bench is the same with them and without. */
  readonly random: Random;
}

/** Works on a board in the order of the trade as far as habit lets it, writing down what is measured; the board is changed by what is fitted. */
export function workOn(board: Board, notebook: Notebook, random: Random, hand: Hand): Work {
  return new Technician(board, notebook, random, hand).work();
}

class Technician {
  readonly #board: Board;
  readonly #notebook: Notebook;
  readonly #random: Random;
  readonly #hand: Hand;
  readonly #replaced = new Set<string>();
  readonly #measures: boolean;

  constructor(board: Board, notebook: Notebook, random: Random, hand: Hand) {
    this.#board = board;
    this.#notebook = notebook;
    this.#random = random;
    this.#hand = hand;
    this.#measures = hand.random.chance(inWeekOf(notebook.clock, hand.habits.measures));
  }

  work(): Work {
    const seen = this.#measures ? this.#probeAsReceived() : this.#guess();
    const suspects = seen.length > 0 ? seen : this.#probeLive();
    if (suspects.length > 0) {
      this.#notebook.pause(2, 9);
      const bad = this.#liftParts(suspects);
      const tooMuch = bad >= 5 ? 0.4 : 0.02;
      if (this.#random.chance(tooMuch)) return { outcome: 'not worth repairing', replaced: [] };
      this.#fit(suspects);
      this.#precautions();
      this.#notebook.pause(8, 35);
      this.#renewUnmeasured();
      this.#refit(suspects);
    } else if (this.#board.story.joint) {
      this.#board.solder();
      this.#notebook.pause(5, 20);
    }
    this.#notebook.pause(2, 6);
    this.#measureRails();
    this.#runIn();
    const untouched = this.#replaced.size === 0 && !this.#board.story.joint;
    return { outcome: untouched ? 'no fault found' : 'returned working', replaced: [...this.#replaced] };
  }

  /** Probes in the family's order. What is shorted or open is hunted until found; anything else is now and then passed over. */
  #probeAsReceived(): PartModel[] {
    const board = this.#board;
    const seen: PartModel[] = [];
    for (const part of board.family.parts) {
      const how = board.howFailed(part.designator);
      const hunted = board.looksBad(part) && how !== 'leaky';
      if (!hunted && this.#random.chance(0.12)) continue;
      if (this.#does(chanceUnread(this.#hand.habits, part.designator, this.#hand.workplace))) continue;
      if (part.kind === 'capacitor' && this.#random.chance(0.04)) {
        this.#notebook.readCharged(part.point, 'as received');
        this.#notebook.pause(0.5, 1.5);
      }
      this.#notebook.read(part.point, 'as received', circuitMode(part), board.inCircuit(part));
      if (!board.looksBad(part)) continue;
      seen.push(part);
      if (part.kind !== 'fuse' && this.#does(this.#hand.habits.stopsWhenFound)) break;
    }
    return seen;
  }

  /** What is renewed without a reading: what looks bad to the eye, and what habit says. */
  #guess(): PartModel[] {
    return this.#board.family.parts.filter(({ designator }) => this.#board.howFailed(designator) !== undefined);
  }

  /** Where probing ended early, what else keeps the board from working is mostly renewed without having been measured. */
  #renewUnmeasured(): void {
    if (this.#hand.habits.stopsWhenFound === 0) return;
    for (const { part } of this.#board.failures) if (!this.#does(0.15)) this.#replaced.add(part);
    this.#renewAll();
  }

  #does(chance: number): boolean {
    return this.#hand.random.chance(chance);
  }

  /** With no short on the board: power it and follow what the rails show to the parts behind. */
  #probeLive(): PartModel[] {
    const board = this.#board;
    this.#notebook.pause(1, 4);
    this.#measureRails();
    if (board.failures.length === 0) return [];
    return board.family.parts.filter(({ designator, kind }) => {
      const behind = board.howFailed(designator) !== undefined;
      return behind || (kind !== 'fuse' && this.#random.chance(0.08));
    });
  }

  #measureRails(): void {
    const { family } = this.#board;
    for (const rail of family.rails) {
      const mode = rail.role === 'mains' ? 'AC volts' : 'DC volts';
      this.#notebook.read(rail.point, 'live', mode, this.#board.rail(rail));
      if (rail.role === 'mains' && this.#random.chance(0.25)) {
        this.#notebook.read(rail.point, 'live', 'current', this.#board.mainsCurrent());
      }
    }
  }

  /**
   * Lifts suspects, group by group. In a group the bench often stops at the first bad one, and sometimes even at a good one: then the
   * question which of them had failed stays open.
   * @returns how many were found bad
   */
  #liftParts(suspects: readonly PartModel[]): number {
    let bad = 0;
    for (const group of this.#groupsOf(suspects)) {
      if (!this.#measures || this.#does(this.#hand.habits.swapsUnmeasured)) continue;
      if (group.length === 1 && this.#random.chance(group[0]?.kind === 'fuse' ? 0.6 : 0.15)) continue;
      for (const part of group) {
        this.#measureOut(part);
        const found = this.#board.howFailed(part.designator) !== undefined;
        if (found) bad++;
        if (found) this.#replaced.add(part.designator);
        if (this.#random.chance(found ? 0.5 : 0.22)) break;
      }
    }
    return bad;
  }

  #measureOut(part: PartModel): void {
    this.#notebook.pause(0.6, 2.5);
    for (const mode of outModes(part))
      this.#notebook.read(part.point, 'part out', mode, this.#board.outOfCircuit(part, mode));
    if (part.kind === 'fuse' || part.kind === 'capacitor' || !this.#random.chance(0.3)) return;
    for (const mode of outModes(part)) {
      this.#notebook.read(part.point, 'part out', mode, this.#board.newPart(part, mode), 'new part');
    }
  }

  /** Fits new parts: those found bad, those bad in circuit and alone, and of a masking group the whole or what habit says. */
  #fit(suspects: readonly PartModel[]): void {
    for (const group of this.#groupsOf(suspects)) {
      const [alone] = group;
      if (group.length === 1 && alone) {
        if (this.#board.looksBad(alone) || this.#board.howFailed(alone.designator))
          this.#replaced.add(alone.designator);
        continue;
      }
      const habitual = group.filter(({ designator }) => this.#board.family.habit.includes(designator));
      const renewed = this.#random.chance(0.2) ? group : this.#random.chance(0.95) ? habitual : [];
      for (const { designator } of renewed) this.#replaced.add(designator);
    }
    this.#renewAll();
  }

  /** Renews, beside what has failed, what the story's first part often takes along. */
  #precautions(): void {
    if (this.#replaced.size < 2) return;
    for (const { part, chance } of this.#board.story.takes) {
      if (this.#random.chance(0.2 + chance / 4)) this.#replaced.add(part);
    }
    this.#renewAll();
  }

  #renewAll(): void {
    for (const designator of this.#replaced) this.#board.renew(designator);
  }

  /** Measures the same points again. Where a group still reads bad, the rest of it is lifted until the culprit is out. */
  #refit(suspects: readonly PartModel[]): void {
    const board = this.#board;
    const again = board.family.parts.filter((part) => suspects.includes(part) || this.#replaced.has(part.designator));
    this.#probe(again, 'refitted');
    const still = again.filter((part) => board.looksBad(part));
    if (still.length === 0) return;
    for (const group of this.#groupsOf(still)) {
      for (const part of group.filter(({ designator }) => !this.#replaced.has(designator))) {
        this.#measureOut(part);
        if (board.howFailed(part.designator) !== undefined) this.#replaced.add(part.designator);
      }
    }
    this.#renewAll();
    this.#notebook.pause(5, 15);
    this.#probe(still, 'refitted');
  }

  #probe(parts: readonly PartModel[], stage: Stage): void {
    for (const part of parts) this.#notebook.read(part.point, stage, circuitMode(part), this.#board.inCircuit(part));
  }

  /** Logs one rail every minute on some boards, more often after a bad joint, with a slow droop as the board warms. */
  #runIn(): void {
    if (!this.#random.chance(this.#board.story.joint ? 0.5 : 0.1)) return;
    const rails = this.#board.family.rails.filter(({ role }) => role !== 'mains');
    const rail = this.#random.pick(rails.map((candidate) => [candidate, 1]));
    const right = this.#board.rail(rail);
    const droop = this.#random.uniform(0, 0.006);
    const entries = this.#random.whole(8, 16);
    this.#notebook.pause(1, 3);
    for (let entry = 0; entry < entries; entry++) {
      this.#notebook.log(rail.point, 'run-in', right * (1 - (droop * entry) / entries), 60);
    }
  }

  /** The masking groups of these parts in the family's order, a part in no group standing alone. */
  #groupsOf(parts: readonly PartModel[]): readonly (readonly PartModel[])[] {
    const met = new Set<PartModel>();
    return parts.flatMap((part) => {
      if (met.has(part)) return [];
      const group = this.#board.groupOf(part);
      for (const member of group) met.add(member);
      return [group];
    });
  }
}

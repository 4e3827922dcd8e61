import { maskingGroups } from '../../../src/domain/family.ts';
import { rectifiedPeak } from '../../../src/domain/mains.ts';
import type { Mode } from '../../../src/domain/reading.ts';
import type { FamilyModel, How, PartModel, RailModel, Story } from './model.ts';
import { circuitMode } from './model.ts';
import type { Random } from './random.ts';

/** A part that has failed, and the part that took it along, where it was not the first. */
export interface Failure {
  readonly part: string;
  readonly how: How;
  readonly after?: string;
}

/** Draws what has failed on a board: the story's first part and what goes with it, each by its chance. */
export function drawFailures(story: Story, random: Random, first?: Failure): Failure[] {
  if (story.first.length === 0) return [];
  const [part, how] = first ? [first.part, first.how] : random.pick(story.first);
  const failures: Failure[] = [{ part, how }];
  for (const take of story.takes) {
    const cause = take.after ?? part;
    const possible =
      failures.some((failure) => failure.part === cause) && !failures.some((failure) => failure.part === take.part);
    if (random.chance(take.chance) && possible) failures.push({ part: take.part, how: take.how, after: cause });
  }
  return failures;
}

/** One board on the bench: what is truly wrong with it, and what a perfect meter would read. */
export class Board {
  readonly family: FamilyModel;
  readonly story: Story;
  readonly mainsVolts: number;
  readonly #random: Random;
  readonly #failures: Map<string, Failure>;
  readonly #revision: number;
  readonly #values = new Map<string, number>();
  #jointBad: boolean;

  /** @param revision - factor of its main rails against those of the family's first revision */
  constructor(family: FamilyModel, story: Story, failures: readonly Failure[], random: Random, revision = 1) {
    this.family = family;
    this.story = story;
    this.mainsVolts = random.normal(231, 3.5);
    this.#random = random;
    this.#failures = new Map(failures.map((failure) => [failure.part, failure]));
    this.#jointBad = story.joint;
    this.#revision = revision;
  }

  /** What is still failed. */
  get failures(): readonly Failure[] {
    return [...this.#failures.values()];
  }

  howFailed(designator: string): How | undefined {
    return this.#failures.get(designator)?.how;
  }

  /** Whether the symptoms show under power: a bad joint, a failure that came first, or any short or open part. */
  get sick(): boolean {
    return this.#jointBad || this.failures.some(({ how, after }) => how !== 'leaky' || after === undefined);
  }

  solder(): void {
    this.#jointBad = false;
  }

  /** Fits a new, good part. */
  renew(designator: string): void {
    this.#failures.delete(designator);
    for (const key of [...this.#values.keys()]) if (key.startsWith(`${designator} `)) this.#values.delete(key);
  }

  /** The part by itself, in the mode's SI unit. */
  outOfCircuit(part: PartModel, mode: Mode): number {
    return this.#once(`${part.designator} ${mode}`, () => this.#drawOut(part, mode, this.howFailed(part.designator)));
  }

  /** A good part of the same type, fresh from its bag. */
  newPart(part: PartModel, mode: Mode): number {
    return this.#drawOut(part, mode, undefined);
  }

  /**
   * What shows in circuit at a part's point: the worst of all parts across the same two nodes. A short anywhere in the group is a short
   * everywhere in it, and an open part hides behind its good neighbours.
   */
  inCircuit(part: PartModel): number {
    const group = this.groupOf(part);
    const conducting = group.filter((member) => ['shorted', 'leaky'].includes(this.howFailed(member.designator) ?? ''));
    if (conducting.length > 0)
      return Math.min(...conducting.map((member) => this.outOfCircuit(member, circuitMode(member))));
    const joined = group.filter((member) => this.howFailed(member.designator) !== 'open' || hidesOpen(member));
    if (joined.length === 0) return Infinity;
    return this.#once(
      `${part.designator} in circuit`,
      () => part.inCircuit * this.#spread(isJunction(part) ? 0.02 : 0.12),
    );
  }

  /** Whether a part's point reads bad in circuit. */
  looksBad(part: PartModel): boolean {
    const group = this.groupOf(part).map((member) => [member, this.howFailed(member.designator)] as const);
    if (group.some(([, how]) => how === 'shorted' || how === 'leaky')) return true;
    return group.every(([member, how]) => how === 'open' && !hidesOpen(member));
  }

  /** The part and those that mask it. */
  groupOf(part: PartModel): readonly PartModel[] {
    const others = groupsOf(this.family).get(part.designator);
    return others ?? [part];
  }

  /** A rail under power in volts (r.m.s. for mains), with the story's symptom while the board is sick. */
  rail(rail: RailModel): number {
    const right = this.#once(`${rail.point} volts`, () => this.#rightVolts(rail));
    const symptom = this.sick ? this.story.symptoms[rail.point] : undefined;
    if (symptom === undefined) return right;
    return symptom === 'not boosted' ? this.#rectified() : right * symptom;
  }

  /** Mains current in amperes with the main board asking for power. */
  mainsCurrent(): number {
    return this.#once('mains amperes', () => this.#random.uniform(0.35, 0.6));
  }

  #rightVolts({ role, volts, rail }: RailModel): number {
    if (role === 'mains') return this.mainsVolts;
    if (role === 'bulk') return this.family.boost ? volts * this.#spread(0.006) : this.#rectified();
    // Pins of one rail carry one voltage.
    if (rail !== undefined) return this.#once(`${rail} volts`, () => volts * this.#revision * this.#spread(0.009));
    if (role === 'backlight') return volts * this.#spread(0.04);
    return volts * (role === 'main' ? this.#revision : 1) * this.#spread(0.009);
  }

  #rectified(): number {
    return rectifiedPeak(this.mainsVolts) * this.#once('ripple', () => this.#random.uniform(0.95, 0.99));
  }

  #drawOut(part: PartModel, mode: Mode, how: How | undefined): number {
    const random = this.#random;
    if (part.kind === 'capacitor') return drawCapacitor(part, mode, how, random);
    if (how === 'open') return Infinity;
    if (isJunction(part)) {
      if (how === 'shorted') return random.uniform(0.002, 0.03);
      if (how === 'leaky') return random.uniform(0.14, 0.2);
      return part.outOfCircuit * this.#spread(0.025);
    }
    if (how === 'shorted') return random.uniform(0.05, 1.2);
    if (how === 'leaky') return 30 * 10 ** random.whole(0, 1) * random.uniform(1, 9);
    return part.outOfCircuit * this.#spread(part.kind === 'resistor' ? 0.02 : 0.08);
  }

  #spread(deviation: number): number {
    return this.#random.normal(1, deviation);
  }

  #once(key: string, draw: () => number): number {
    const known = this.#values.get(key);
    if (known !== undefined) return known;
    const value = draw();
    this.#values.set(key, value);
    return value;
  }
}

function drawCapacitor(part: PartModel, mode: Mode, how: How | undefined, random: Random): number {
  if (mode === 'resistance') return how === 'shorted' ? random.uniform(0.05, 1.2) : random.uniform(2e6, 9e6);
  if (mode === 'ESR') return how === 'open' ? random.uniform(2, 14) : random.uniform(0.08, 0.3);
  return part.outOfCircuit * (how === 'open' ? random.uniform(0.1, 0.6) : random.normal(0.98, 0.03));
}

function isJunction(part: PartModel): boolean {
  return part.kind === 'diode' || part.kind === 'bridge';
}

/** Whether the circuit around a part reads the same with it open. */
function hidesOpen(part: PartModel): boolean {
  return part.kind === 'transistor' || part.kind === 'controller' || part.kind === 'capacitor';
}

const groups = new WeakMap<FamilyModel, ReadonlyMap<string, readonly PartModel[]>>();

/** The masking group of each part that is in one. */
function groupsOf(family: FamilyModel): ReadonlyMap<string, readonly PartModel[]> {
  const known = groups.get(family);
  if (known) return known;
  const byPart = new Map<string, readonly PartModel[]>();
  for (const members of maskingGroups(family.parts)) {
    const models = family.parts.filter(({ designator }) => members.includes(designator));
    for (const member of members) byPart.set(member, models);
  }
  groups.set(family, byPart);
  return byPart;
}

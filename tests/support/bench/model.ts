import type { Mode } from '../../../src/domain/reading.ts';
import type { Role } from '../../../src/domain/family.ts';
import type { Weighted } from './random.ts';

/** Complaints as customers put them. */
export const COMPLAINTS = [
  'no standby light',
  'light on but will not start',
  'starts then shuts down',
  'clicking or cycling',
  'sound but no picture',
  'flicker',
  'burnt smell',
  'blows the house breaker',
] as const;
export type Complaint = (typeof COMPLAINTS)[number];

/** What a part is, which settles how it is measured and how it can fail. */
export type PartKind = 'fuse' | 'bridge' | 'diode' | 'transistor' | 'controller' | 'resistor' | 'capacitor';

/** How a part has failed. A capacitor that has lost its capacitance counts as open. */
export type How = 'shorted' | 'leaky' | 'open';

/** A part as the simulation knows it. Parts across the same two nodes are of kinds measured in the same mode. */
export interface PartModel {
  readonly designator: string;
  readonly kind: PartKind;
  readonly nodes: readonly [string, string];
  /** The test point that measures it. */
  readonly point: string;
  /** What a good one reads in circuit, in the SI unit of {@link circuitMode}. */
  readonly inCircuit: number;
  /** What a good one reads out of circuit; for a capacitor its capacitance in farads. */
  readonly outOfCircuit: number;
}

/** A supply as it is when all is well, in volts. */
export interface RailModel {
  readonly point: string;
  readonly role: Exclude<Role, 'part'>;
  readonly rail?: string;
  /** For a bulk without boost stage, and for mains: 0, as both follow the day's mains. */
  readonly volts: number;
}

/** What a rail does while a fault is there: a share of its right voltage, or a bulk at rectified mains though there is a boost stage. */
export type Symptom = number | 'not boosted';

/** One way in which boards of a family fail. */
export interface Story {
  readonly name: string;
  readonly weight: number;
  /** What fails first; empty for a bad joint or no fault. */
  readonly first: Weighted<readonly [part: string, how: How]>;
  /** What it takes with it, with what chance; given `after`, only where that part has failed. */
  readonly takes: readonly {
    readonly part: string;
    readonly how: How;
    readonly chance: number;
    readonly after?: string;
  }[];
  readonly complaints: Weighted<Complaint>;
  /** What the points show under power until the fault is mended. */
  readonly symptoms: Readonly<Record<string, Symptom>>;
  /** Whether a bad solder joint is the cause. */
  readonly joint: boolean;
}

/** A family as the simulation knows it. */
export interface FamilyModel {
  readonly name: string;
  readonly boost: boolean;
  /** How many of this family come in, against the others. */
  readonly weight: number;
  /** The first day on which one came in (milliseconds). */
  readonly since: number;
  /** In the order in which the bench probes them. */
  readonly parts: readonly PartModel[];
  /** In the order in which the bench measures them. */
  readonly rails: readonly RailModel[];
  readonly stories: readonly Story[];
  /** What the bench renews by habit, without asking which member of a masking group has failed. */
  readonly habit: readonly string[];
}

const IN_CIRCUIT: Readonly<Record<PartKind, Mode>> = {
  fuse: 'continuity',
  bridge: 'diode',
  diode: 'diode',
  transistor: 'resistance',
  controller: 'resistance',
  resistor: 'resistance',
  capacitor: 'resistance',
};

/** The mode in which a part is measured on the board. */
export function circuitMode(part: PartModel): Mode {
  return IN_CIRCUIT[part.kind];
}

/** The modes in which a part is measured off the board. */
export function outModes(part: PartModel): readonly Mode[] {
  if (part.kind === 'capacitor') return ['resistance', 'capacitance', 'ESR'];
  return [part.kind === 'fuse' ? 'resistance' : IN_CIRCUIT[part.kind]];
}

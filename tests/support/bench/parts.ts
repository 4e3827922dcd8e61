import type { Complaint, How, PartKind, PartModel, RailModel, Story, Symptom } from './model.ts';
import type { Weighted } from './random.ts';

type Nodes = `${string}/${string}`;

function part(
  kind: PartKind,
  designator: string,
  pins: string,
  nodes: Nodes,
  inCircuit: number,
  outOfCircuit: number,
): PartModel {
  const [first = '', second = ''] = nodes.split('/');
  return { kind, designator, point: `${designator} ${pins}`.trim(), nodes: [first, second], inCircuit, outOfCircuit };
}

export const fuse = (designator: string): PartModel => part('fuse', designator, '', 'line/fused line', 0.05, 0.05);

export const bridge = (designator: string, volts: number): PartModel =>
  part('bridge', designator, '~→+', 'mains/rectified', volts, volts);

/** @param volts - forward voltage as a meter's diode mode shows it */
export const diode = (designator: string, nodes: Nodes, volts: number): PartModel =>
  part('diode', designator, 'A→K', nodes, volts, volts);

/** @param inCircuit - ohms through its neighbours; @param out - ohms of a good one by itself */
export const transistor = (designator: string, nodes: Nodes, inCircuit: number, out: number): PartModel =>
  part('transistor', designator, 'D→S', nodes, inCircuit, out);

export const controller = (designator: string, pins: string, nodes: Nodes, inCircuit: number, out: number): PartModel =>
  part('controller', designator, pins, nodes, inCircuit, out);

export const resistor = (designator: string, nodes: Nodes, ohms: number): PartModel =>
  part('resistor', designator, '', nodes, ohms, ohms);

/** @param farads - nominal capacitance */
export const bulkCapacitor = (designator: string, inCircuit: number, farads: number): PartModel =>
  part('capacitor', designator, '+→-', 'bulk/primary ground', inCircuit, farads);

/** The mains, measured before everything else under power. */
export const mains: RailModel = { point: 'mains', role: 'mains', volts: 0 };

export const bulk = (volts: number): RailModel => ({ point: 'bulk', role: 'bulk', volts });

export const standby = (volts: number): RailModel => ({ point: `${volts}V standby`, role: 'standby', volts });

export const mainRail = (volts: number): RailModel => ({ point: `${volts}V main`, role: 'main', volts });

/** One main rail that leaves the board on two pins. */
export const mainRailOnPins = (volts: number): readonly RailModel[] =>
  ['pin 1', 'pin 2'].map((pin) => ({ point: `${volts}V main ${pin}`, role: 'main', rail: `${volts}V main`, volts }));

export const backlight = (volts: number, point = 'backlight'): RailModel => ({ point, role: 'backlight', volts });

export type Take = Story['takes'][number];

export const takes = (part: string, how: How, chance: number, after?: string): Take =>
  after === undefined ? { part, how, chance } : { part, how, chance, after };

/** A story that starts with a part. */
export function failing(
  name: string,
  weight: number,
  first: Weighted<readonly [string, How]>,
  taken: readonly Take[],
  complaints: Weighted<Complaint>,
  symptoms: Readonly<Record<string, Symptom>> = {},
): Story {
  return { name, weight, first, takes: taken, complaints, symptoms, joint: false };
}

/** A story of a bad solder joint. */
export function badJoint(
  weight: number,
  complaints: Weighted<Complaint>,
  symptoms: Readonly<Record<string, Symptom>>,
): Story {
  return { name: 'bad joint', weight, first: [], takes: [], complaints, symptoms, joint: true };
}

/** A story of a board that came in without a fault. */
export function noFault(weight: number): Story {
  const complaints: Weighted<Complaint> = [
    ['light on but will not start', 2],
    ['sound but no picture', 2],
    ['flicker', 1],
  ];
  return { name: 'no fault', weight, first: [], takes: [], complaints, symptoms: {}, joint: false };
}

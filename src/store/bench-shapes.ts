import { BASES, bandFault, type Band, type Expectation } from '../domain/band.ts';
import { ROLES, type Family, type Part, type TestPoint } from '../domain/family.ts';
import { settingsFault, type BenchSettings, type PartPrice } from '../domain/bench-settings.ts';
import type { GoodRule } from '../domain/good-rule.ts';
import { viewFault, type KeptView } from '../domain/kept-view.ts';
import type { Accuracy, Meter } from '../domain/meter.ts';
import { MODES, STAGES } from '../domain/reading.ts';
import { OUTCOMES, type Repair } from '../domain/repair.ts';
import { finite, listOf, moment, oneOf, oneShapeBy, optional, shape, ShapeFault, text, yesOrNo, type Read } from './fields.ts'; // prettier-ignore

type Of<Kind extends Expectation['kind']> = Extract<Expectation, { kind: Kind }>;

const anyExpectation = oneShapeBy<Expectation>('kind', {
  between: shape<Of<'between'>>({ kind: oneOf(['between']), low: finite, high: finite }),
  percent: shape<Of<'percent'>>({ kind: oneOf(['percent']), nominal: finite, percent: finite }),
  'at least': shape<Of<'at least'>>({ kind: oneOf(['at least']), limit: finite }),
  'at most': shape<Of<'at most'>>({ kind: oneOf(['at most']), limit: finite }),
  open: shape<Of<'open'>>({ kind: oneOf(['open']), limit: finite }),
  shorted: shape<Of<'shorted'>>({ kind: oneOf(['shorted']), limit: finite }),
  'rectified mains': shape<Of<'rectified mains'>>({
    kind: oneOf(['rectified mains']),
    below: finite,
    above: finite,
    mains: optional(finite),
  }),
});

const expectation: Read<Expectation> = (value, place) => {
  const read = anyExpectation(value, place);
  if (bandFault(read) !== undefined) throw new ShapeFault(`${place} is no band that can be used`);
  return read;
};

export const bandShape: Read<Band> = shape<Band>({
  family: text,
  point: text,
  mode: oneOf(MODES),
  stage: optional(oneOf(STAGES)),
  expects: expectation,
  basis: oneOf(BASES),
  author: optional(text),
  date: optional(text),
});

const twoNodes: Read<readonly [string, string]> = (value, place) => {
  const [first, second, ...more] = listOf(text, 2)(value, place);
  if (first === undefined || second === undefined || more.length > 0) throw new ShapeFault(`${place} are no two nodes`);
  return [first, second];
};

export const familyShape: Read<Family> = shape<Family>({
  name: text,
  boost: yesOrNo,
  points: listOf(
    shape<TestPoint>({ name: text, role: oneOf(ROLES), part: optional(text), rail: optional(text) }),
    100_000,
  ),
  parts: listOf(shape<Part>({ designator: text, nodes: twoNodes }), 100_000),
});

export const repairShape: Read<Repair> = shape<Repair>({
  id: text,
  family: text,
  complaint: text,
  received: moment,
  returned: moment,
  outcome: oneOf(OUTCOMES),
  replaced: listOf(text, 100_000),
  comebackOf: optional(text),
  bench: optional(text),
});

export const meterShape: Read<Meter> = shape<Meter>({
  name: text,
  accuracies: listOf(
    shape<Accuracy>({
      mode: oneOf(MODES),
      upTo: finite,
      percent: finite,
      counts: finite,
      resolution: optional(finite),
    }),
    10_000,
  ),
  overRangeMark: optional(text),
  calibrationDue: optional(finite),
});

const priceShape = shape<PartPrice>({ family: text, part: text, price: finite });

const anySettings = shape<BenchSettings>({
  prices: listOf(priceShape, 100_000),
  fee: optional(finite),
  technician: optional(text),
  goodRule: optional(shape<GoodRule>({ heldDays: finite, withoutFault: yesOrNo, newParts: yesOrNo })),
});

export const settingsShape: Read<BenchSettings> = (value, place) => {
  const settings = anySettings(value, place);
  if (settingsFault(settings) !== undefined) throw new ShapeFault(`${place} are no settings that can be used`);
  return settings;
};

const anyView = shape<KeptView>({ name: text, address: text });

export const viewShape: Read<KeptView> = (value, place) => {
  const view = anyView(value, place);
  if (viewFault(view) !== undefined) throw new ShapeFault(`${place} is no view that can be opened`);
  return view;
};

import { NAME_KINDS, type NameAnswer } from '../domain/name-answer.ts';
import { bandShape, familyShape, meterShape, repairShape, settingsShape, viewShape } from './bench-shapes.ts';
import { MODES, SPECIMENS, STAGES, STATES } from '../domain/reading.ts';
import {
  EDIT_FIELDS,
  type ReadingEdit,
  type ReadingPatch,
  type RowChange,
  type RowIdentity,
} from '../domain/reading-edit.ts';
import {
  count,
  finite,
  listOf,
  moment,
  oneOf,
  optional,
  shape,
  ShapeFault,
  text,
  yesOrNo,
  type Read,
} from './fields.ts';
import { planShape } from './import-shapes.ts';
import { EMPTY_STATE, STATE_PARTS, type BenchState, type Change, type ColumnMap, type Edit, type KeptOverrule, type StateItem, type StatePart } from './kept.ts'; // prettier-ignore

const whole: Read<number> = (value, place) => {
  const number = finite(value, place);
  if (!Number.isInteger(number) || Math.abs(number) > 100) throw new ShapeFault(`${place} is no small whole number`);
  return number;
};

const patch = shape<ReadingPatch>({
  time: optional(moment),
  repair: optional(text),
  family: optional(text),
  point: optional(text),
  stage: optional(oneOf(STAGES)),
  mode: optional(oneOf(MODES)),
  specimen: optional(oneOf(SPECIMENS)),
  state: optional(oneOf(STATES)),
  value: optional(moment),
  prefix: optional(whole),
  decimals: optional(whole),
  meter: optional(text),
});

const rowChange = shape<RowChange>({
  row: shape<RowIdentity>({ file: text, line: count(), nth: count() }),
  field: optional(oneOf(EDIT_FIELDS)),
  old: optional(patch),
  new: optional(patch),
});

/** What the items of each part of the state must be. */
export const ITEM_SHAPES: { readonly [Part in StatePart]: Read<BenchState[Part][number]> } = {
  families: familyShape,
  bands: bandShape,
  earlierBands: bandShape,
  repairs: repairShape,
  meters: meterShape,
  maps: shape<ColumnMap>({ header: text, plan: planShape }),
  names: shape<NameAnswer>({ kind: oneOf(NAME_KINDS), name: text, family: optional(text), meaning: optional(text) }),
  overrules: shape<KeptOverrule>({ repair: text, rule: text, reason: text }),
  edits: shape<ReadingEdit>({
    when: finite,
    who: optional(text),
    why: optional(text),
    changes: listOf(rowChange),
    added: optional(text),
    undone: optional(yesOrNo),
  }),
  settings: settingsShape,
  views: viewShape,
};

/** Parts that earlier versions did not have, and their backups leave out. */
type AddedPart = 'settings' | 'views';

const stateParts = shape<Omit<BenchState, AddedPart> & Partial<Pick<BenchState, AddedPart>>>({
  families: listOf(ITEM_SHAPES.families),
  bands: listOf(ITEM_SHAPES.bands),
  earlierBands: listOf(ITEM_SHAPES.earlierBands),
  repairs: listOf(ITEM_SHAPES.repairs),
  meters: listOf(ITEM_SHAPES.meters),
  maps: listOf(ITEM_SHAPES.maps),
  names: listOf(ITEM_SHAPES.names),
  overrules: listOf(ITEM_SHAPES.overrules),
  edits: listOf(ITEM_SHAPES.edits),
  settings: optional(listOf(ITEM_SHAPES.settings, 1)),
  views: optional(listOf(ITEM_SHAPES.views, 100_000)),
});

export const stateShape: Read<BenchState> = (value, place) => ({ ...EMPTY_STATE, ...stateParts(value, place) });

const changeShape: Read<Change> = (value, place) => {
  const partOf = (part: unknown): Read<StateItem> => ITEM_SHAPES[oneOf(STATE_PARTS)(part, `${place}.part`)];
  const item = partOf((value as Partial<Change> | null | undefined)?.part);
  return shape<Change>({ part: oneOf(STATE_PARTS), old: optional(item), new: optional(item) })(value, place);
};

export const editShape: Read<Edit> = shape<Edit>({
  step: count(),
  at: finite,
  who: optional(text),
  why: optional(text),
  file: optional(text),
  undoes: optional(count()),
  redoes: optional(count()),
  changes: listOf(changeShape),
});

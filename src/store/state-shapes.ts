import { NAME_KINDS, type NameAnswer } from '../domain/name-answer.ts';
import { bandShape, familyShape, meterShape, repairShape } from './bench-shapes.ts';
import { count, finite, listOf, oneOf, optional, shape, text, type Read } from './fields.ts';
import { planShape } from './import-shapes.ts';
import { STATE_PARTS, type BenchState, type Change, type ColumnMap, type Edit, type KeptOverrule, type StateItem, type StatePart } from './kept.ts'; // prettier-ignore

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
};

export const stateShape: Read<BenchState> = shape<BenchState>({
  families: listOf(ITEM_SHAPES.families),
  bands: listOf(ITEM_SHAPES.bands),
  earlierBands: listOf(ITEM_SHAPES.earlierBands),
  repairs: listOf(ITEM_SHAPES.repairs),
  meters: listOf(ITEM_SHAPES.meters),
  maps: listOf(ITEM_SHAPES.maps),
  names: listOf(ITEM_SHAPES.names),
  overrules: listOf(ITEM_SHAPES.overrules),
});

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
  changes: listOf(changeShape),
});

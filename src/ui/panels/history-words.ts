import type { Band } from '../../domain/band.ts';
import type { BenchSettings } from '../../domain/bench-settings.ts';
import type { Family } from '../../domain/family.ts';
import type { KeptView } from '../../domain/kept-view.ts';
import type { Meter } from '../../domain/meter.ts';
import type { NameAnswer } from '../../domain/name-answer.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { Repair } from '../../domain/repair.ts';
import type { Change } from '../../session/answers.ts';
import { expectationText, limitText } from '../band-text.ts';
import { countOf, dayText, listText } from '../words.ts';
import { goodRuleText } from './good-rule-words.ts';

/** A line of a repair's go-back list that was let pass. */
interface Overrule {
  readonly repair: string;
  readonly rule: string;
  readonly reason: string;
}

/** What an item is called, and what is said of it: each a name and a text, or a text alone. */
interface Wording<Item> {
  readonly name: (item: Item) => string;
  readonly says: (item: Item, mark: DecimalMark) => readonly (readonly [field: string, text: string])[];
}

const bands: Wording<Band> = {
  name: ({ family, point, stage, mode }) => `${family}, ${point}, ${stage === undefined ? '' : `${stage}, `}${mode}`,
  says: ({ mode, expects, basis }, mark) => [
    ['', expectationText(expects, MODE_UNITS[mode], mark)],
    ['basis', basis],
  ],
};

const repairs: Wording<Repair> = {
  name: ({ id }) => id,
  says: ({ family, complaint, received, returned, outcome, replaced, comebackOf, bench }) => [
    ['family', family],
    ['complaint', complaint],
    ['received', dayText(received)],
    ['returned', dayText(returned)],
    ['outcome', outcome],
    ['replaced', replaced.join(', ')],
    ['comeback of', comebackOf ?? ''],
    ['bench', bench ?? ''],
  ],
};

const overrules: Wording<Overrule> = {
  name: ({ repair, rule }) => `${repair}, ${rule}`,
  says: ({ reason }) => [['let pass', reason]],
};

const families: Wording<Family> = {
  name: ({ name }) => name,
  says: ({ points, parts, boost }, mark) => [
    ['', countOf(points.length, 'test point', mark)],
    ['', countOf(parts.length, 'part', mark)],
    ['boost stage', boost ? 'yes' : 'no'],
  ],
};

const meters: Wording<Meter> = {
  name: ({ name }) => name,
  says: ({ accuracies, overRangeMark, calibrationDue }, mark) => [
    ...accuracies.map(({ mode, upTo, percent, counts }): [string, string] => [
      `${mode} up to ${limitText(upTo, MODE_UNITS[mode], mark)}`,
      `±(${numberText(percent, mark)}\u00a0% + ${counts})`,
    ]),
    ['over-range mark', overRangeMark ?? ''],
    ['calibration due', calibrationDue === undefined ? '' : dayText(calibrationDue)],
  ],
};

const settings: Wording<BenchSettings> = {
  name: () => 'Settings',
  says: ({ prices, fee, technician, goodRule }, mark) => [
    ['technician', technician ?? ''],
    ['fee', fee === undefined ? '' : numberText(fee, mark)],
    ['known good', goodRule === undefined ? '' : goodRuleText(goodRule)],
    ...prices.map(({ family, part, price }): [string, string] => [
      `price of ${part} of ${family}`,
      numberText(price, mark),
    ]),
  ],
};

const views: Wording<KeptView> = {
  name: ({ name }) => `view “${name}”`,
  says: ({ address }) => [['', address]],
};

const names: Wording<NameAnswer> = {
  name: ({ kind, name, family }) => `${kind} “${name}”${family === undefined ? '' : ` of ${family}`}`,
  says: ({ meaning }) => [['', meaning === undefined ? 'is new' : `is another name for ${meaning}`]],
};

const WORDINGS: Readonly<Partial<Record<Change['part'], unknown>>> = {
  bands,
  repairs,
  overrules,
  families,
  meters,
  settings,
  views,
  names,
};

/** What was changed: its name, and in words what it was and what it is. */
export interface ChangeText {
  readonly name: string;
  readonly words: string;
}

/** A change in words; `words` are empty where it shows in no field that is told. */
export function changeText({ part, old, new: added }: Change, mark: DecimalMark): ChangeText {
  type Item = NonNullable<typeof old>;
  const wording = WORDINGS[part] as Wording<Item> | undefined;
  const item = added ?? old;
  if (wording === undefined || item === undefined) return { name: part, words: '' };
  const name = wording.name(item);
  if (old === undefined || added === undefined) {
    const told = wording.says(item, mark).filter(([, text]) => text !== '');
    const words = told.map(([field, text]) => (field === '' ? text : `${field} ${text}`)).join(', ');
    return { name, words: old === undefined ? words : `${words}: taken away` };
  }
  return { name, words: differences(wording.says(old, mark), wording.says(added, mark)) };
}

/** The fields that differ, each with what it was and what it is. */
function differences(
  before: readonly (readonly [string, string])[],
  after: readonly (readonly [string, string])[],
): string {
  // Fields without a name are told apart by their place.
  const keyed = (fields: typeof before): Map<string, readonly [string, string]> =>
    new Map(fields.map((field, index) => [field[0] === '' ? `${index}` : field[0], field]));
  const earlier = keyed(before);
  const later = keyed(after);
  const texts = [...new Set([...earlier.keys(), ...later.keys()])].flatMap((key) => {
    const [field, old] = earlier.get(key) ?? [later.get(key)?.[0] ?? '', ''];
    const text = later.get(key)?.[1] ?? '';
    return old === text ? [] : [`${field === '' ? '' : `${field} `}${old || 'none'} → ${text || 'none'}`];
  });
  return listText(texts);
}

function numberText(number: number, mark: DecimalMark): string {
  return mark === ',' ? String(number).replace('.', ',') : String(number);
}

import { accuracyFault, meterFault, type AccuracyFault } from '../../domain/fault.ts';
import type { Accuracy, Meter } from '../../domain/meter.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS, type Mode } from '../../domain/reading.ts';
import { dayText } from '../words.ts';
import { numberField, quantityField, readPercent, readQuantity, type Typed } from './band-typed.ts';

/** One line of a meter's accuracy while it is typed; a line without figures is none. */
export interface AccuracyDraft {
  readonly mode: Mode;
  readonly upTo: string;
  readonly percent: string;
  readonly counts: string;
  readonly resolution: string;
}

/** A meter while its profile is typed; `known` is the name that it has already. */
export interface MeterDraft {
  readonly known: string | undefined;
  readonly name: string;
  readonly overRangeMark: string;
  /** Day, ISO 8601; empty where none is stated. */
  readonly calibrationDue: string;
  readonly lines: readonly AccuracyDraft[];
}

export type AccuracyField = Exclude<keyof AccuracyDraft, 'mode'>;

/** The figures of a line, in the order in which data sheets give them. */
export const ACCURACY_FIELDS: readonly (readonly [field: AccuracyField, title: string])[] = [
  ['upTo', 'range up to'],
  ['resolution', 'last digit'],
  ['percent', '± % of reading'],
  ['counts', '+ counts'],
];

const FIELD_TITLES: Readonly<Record<AccuracyFault['field'], string>> = {
  'range limit': 'range up to',
  resolution: 'last digit',
  percent: '± % of reading',
  counts: '+ counts',
};

export const EMPTY_ACCURACY: AccuracyDraft = { mode: 'DC volts', upTo: '', percent: '', counts: '', resolution: '' };

/** A draft of a meter that is known, or of a new one. */
export function meterDraftOf(meter: Meter | undefined, mark: DecimalMark): MeterDraft {
  const lines = meter?.accuracies.map((accuracy) => accuracyDraftOf(accuracy, mark)) ?? [];
  return {
    known: meter?.name,
    name: meter?.name ?? '',
    overRangeMark: meter?.overRangeMark ?? '',
    calibrationDue: dayText(meter?.calibrationDue ?? NaN),
    lines: lines.length > 0 ? lines : [EMPTY_ACCURACY],
  };
}

function accuracyDraftOf({ mode, upTo, percent, counts, resolution }: Accuracy, mark: DecimalMark): AccuracyDraft {
  const unit = MODE_UNITS[mode];
  return {
    mode,
    upTo: quantityField(upTo, unit, mark),
    percent: numberField(percent, mark),
    counts: numberField(counts, mark),
    resolution: resolution === undefined ? '' : quantityField(resolution, unit, mark),
  };
}

/** The meter that a draft describes, or the first thing that is wrong with it, as a sentence. */
export function readMeter(
  { name, overRangeMark, calibrationDue, lines }: MeterDraft,
  mark: DecimalMark,
): { readonly meter: Meter } | { readonly fault: string } {
  const accuracies: Accuracy[] = [];
  for (const [at, line] of lines.entries()) {
    if (ACCURACY_FIELDS.every(([field]) => line[field].trim() === '')) continue;
    const place = `Line ${at + 1}, ${line.mode}`;
    const missing = ACCURACY_FIELDS.find(([field]) => field !== 'resolution' && line[field].trim() === '');
    if (missing) return { fault: `${place}: “${missing[1]}” is empty; take it from the meter’s data sheet.` };
    const unit = MODE_UNITS[line.mode];
    const resolution = line.resolution.trim();
    const typed = {
      upTo: readQuantity(line.upTo, unit, mark),
      percent: readPercent(line.percent, mark),
      counts: readPercent(line.counts.replace(/\s*(?:counts?|digits?)$/i, ''), mark),
      ...(resolution === '' ? {} : { resolution: readQuantity(resolution, unit, mark) }),
    };
    const faulty = Object.values<Typed>(typed).find((one) => 'fault' in one);
    if (faulty && 'fault' in faulty) return { fault: `${place}: ${faulty.fault}` };
    const figures = Object.fromEntries(Object.entries<Typed>(typed).map(([key, one]) => [key, 'value' in one ? one.value : NaN])); // prettier-ignore
    const accuracy = { mode: line.mode, ...figures } as unknown as Accuracy;
    const wrong = accuracyFault(accuracy);
    if (wrong) return { fault: `${place}: “${FIELD_TITLES[wrong.field]}” ${wrong.wrong}. ${wrong.remedy}` };
    accuracies.push(accuracy);
  }
  const meter: Meter = {
    name: name.trim(),
    accuracies,
    ...(overRangeMark.trim() !== '' && { overRangeMark: overRangeMark.trim() }),
    ...(calibrationDue !== '' && { calibrationDue: Date.parse(`${calibrationDue}T00:00Z`) }),
  };
  const fault = meterFault(meter);
  return fault === undefined ? { meter } : { fault };
}

import { DAY, dayOnly } from '../../domain/day.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS, MODES, SPECIMENS, STAGES, STATES, type Reading } from '../../domain/reading.ts';
import { MAX_NAME } from '../../intake/caps.ts';
import { noWord, shorten, wrongUnit, type Fault } from '../../intake/fault.ts';
import { cleanName } from '../../intake/names.ts';
import { QuantityScanner } from '../../intake/quantity-scanner.ts';
import { stateOfWord } from '../../intake/state-words.ts';
import { TimeScanner } from '../../intake/time-scanner.ts';
import { readMode, readSpecimen, readStage } from '../../intake/words.ts';
import type { EditField, ReadingPatch } from '../../domain/reading-edit.ts';

/** Said behind a point: that a new part was measured in place of the board's own. */
export const NEW_PART = /,\s*new part\s*$/;
const quantity = new QuantityScanner();
const times = new TimeScanner();

/**
 * Reads a text as one field of a reading, in the field's own terms: `12,7 V`, `0.64 MΩ`, `OL`, a date, a stage.
 * A number without a unit has the prefix that the reading shows; a day keeps the time of day, a time of day keeps the day.
 * @param reading - the reading as it is
 * @returns what it sets, or a sentence that says what is wrong and what to do
 */
export function readCell(field: EditField, text: string, reading: Reading, mark: DecimalMark): ReadingPatch | string {
  const set = readField(field, text, reading, mark);
  return 'wrong' in set ? `“${shorten(text.trim())}” ${set.wrong}. ${set.remedy}` : set;
}

function readField(field: EditField, text: string, reading: Reading, mark: DecimalMark): ReadingPatch | Fault {
  switch (field) {
    case 'reading':
      return readReading(text, reading, mark);
    case 'time':
      return readTime(text, reading);
    case 'stage':
      return word('stage', readStage(text), STAGES);
    case 'specimen':
      return word('specimen', readSpecimen(text), SPECIMENS);
    case 'mode': {
      const mode = readMode(text);
      if (mode !== undefined && reading.state === 'value' && MODE_UNITS[mode] !== MODE_UNITS[reading.mode]) {
        const wrong = `is measured in ${MODE_UNITS[mode]}, and the reading is in ${MODE_UNITS[reading.mode]}`;
        return { wrong, remedy: 'Correct the reading first, or choose a mode of its unit.' };
      }
      return word('mode', mode, MODES);
    }
    case 'point':
      return { ...readName(field, text.replace(NEW_PART, '')), ...(NEW_PART.test(text) && { specimen: 'new part' }) };
    case 'repair':
    case 'family':
    case 'meter':
      return readName(field, text);
  }
}

function readReading(text: string, reading: Reading, mark: DecimalMark): ReadingPatch | Fault {
  const prefix = reading.state === 'value' ? reading.prefix : 0;
  let fault = quantity.scan(text, mark, prefix);
  // Whoever writes the other decimal mark is understood where no other reading of it is possible.
  if (fault !== undefined && quantity.scan(text, mark === '.' ? ',' : '.', prefix) === undefined) fault = undefined;
  if (fault !== undefined) return fault;
  if (quantity.loneGroup) {
    return {
      wrong: 'may be read in two ways',
      remedy: `Write it without a mark between thousands, or with the decimal mark “${mark}”.`,
    };
  }
  const { unit } = quantity;
  if (unit !== undefined && unit !== MODE_UNITS[reading.mode]) {
    return wrongUnit(unit, reading.mode);
  }
  const state = STATES[quantity.state]!;
  return { state, value: quantity.value, prefix: quantity.prefix, decimals: quantity.decimals };
}

function readTime(text: string, { time }: Reading): ReadingPatch | Fault {
  if (stateOfWord(text) === 'blank') return { time: NaN };
  const fault = times.scan(text, 'year-month-day');
  if (fault !== undefined) return fault;
  if (times.parts === 'moment') return { time: times.time };
  const day = Math.floor(time / DAY) * DAY;
  if (times.parts === 'day') return { time: Number.isNaN(time) ? dayOnly(times.time) : times.time + (time - day) };
  if (Number.isNaN(time))
    return { wrong: 'is a time without its day', remedy: 'Write the day too, such as 2026-03-01 08:15.' };
  return { time: day + times.time };
}

function readName(field: 'repair' | 'family' | 'point' | 'meter', text: string): ReadingPatch | Fault {
  const name = cleanName(text);
  if (name.length > MAX_NAME) return { wrong: `is longer than ${MAX_NAME} characters`, remedy: 'Shorten it.' };
  const mayBeEmpty = field === 'family' || field === 'meter';
  if (name === '' && !mayBeEmpty) return { wrong: 'is empty', remedy: `Every reading has a ${field}: fill it in.` };
  return { [field]: name };
}

function word<Word extends string>(
  field: 'stage' | 'mode' | 'specimen',
  meaning: Word | undefined,
  words: readonly Word[],
): ReadingPatch | Fault {
  if (meaning !== undefined) return { [field]: meaning };
  return noWord(field, words);
}

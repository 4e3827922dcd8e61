import type { BandKind, Basis } from '../domain/band.ts';
import type { Role } from '../domain/family.ts';
import type { Outcome } from '../domain/repair.ts';
import type { Mode, Specimen, Stage } from '../domain/reading.ts';
import { parseUnit } from './unit-text.ts';

/** The text in the form in which words are compared: lower case, single blanks for anything but letters and digits. */
export function plainWords(text: string): string {
  return text
    .slice(0, 200)
    .toLowerCase()
    .replace(/[^\p{L}\p{N}Ω~+]+/gu, ' ')
    .trim();
}

function lexicon<Meaning>(entries: readonly (readonly [Meaning, string])[]): ReadonlyMap<string, Meaning> {
  return new Map(
    entries.flatMap(([meaning, words]) => words.split('|').map((word): [string, Meaning] => [word, meaning])),
  );
}

const STAGE_WORDS = lexicon<Stage>([
  ['as received', 'as received|received|as rec|incoming|arrival|on arrival|before|in'],
  ['part out', 'part out|out|parts out|removed|lifted|out of circuit|desoldered|part removed'],
  ['refitted', 'refitted|refit|re fit|after refit|fitted|after fitting'],
  ['live', 'live|powered|power on|mains on|energised|on'],
  ['run-in', 'run in|runin|burn in|burnin|soak|soak test|long run'],
]);

const MODE_WORDS = lexicon<Mode>([
  ['continuity', 'continuity|cont|contin|beeper|continuity test'],
  ['resistance', 'resistance|res|ohms|ohm|Ω|ω|r|resistor|2w|2 wire|2w ohms'],
  ['diode', 'diode|diode test|diod|diode mode|junction|diode drop'],
  ['capacitance', 'capacitance|cap|capacitor|caps'],
  ['ESR', 'esr|esr Ω|esr ohms'],
  ['DC volts', 'dc volts|vdc|dcv|dc v|v dc|dc voltage|volts dc|voltage dc|dc|mvdc|dcmv|dc volt'],
  ['AC volts', 'ac volts|vac|acv|ac v|v ac|ac voltage|volts ac|voltage ac|ac|mvac|acmv|v~|~v|ac volt'],
  ['current', 'current|amps|amp|i|dca|dc current|aca|ac current|ma|adc|dcma|acma'],
]);

const SPECIMEN_WORDS = lexicon<Specimen>([
  ['board', 'board|own|own part|original|dut|old|old part|on board|board part'],
  ['new part', 'new part|new|reference|ref|spare|fresh|good part|new one|replacement'],
]);

const OUTCOME_WORDS = lexicon<Outcome>([
  ['open', 'open|in progress|waiting|on bench|on the bench|pending'],
  ['returned working', 'returned working|working|repaired|fixed|returned|ok|returned ok'],
  ['not worth repairing', 'not worth repairing|nwr|ber|beyond economic repair|uneconomic|scrap|scrapped|not worth it'],
  ['no fault found', 'no fault found|nff|no fault'],
  ['comeback', 'comeback|come back|came back'],
]);

const KIND_WORDS = lexicon<BandKind>([
  ['between', 'between|range|from to'],
  ['percent', 'percent|nominal percent|tolerance'],
  ['at least', 'at least|min|minimum|above'],
  ['at most', 'at most|max|maximum|below'],
  ['open', 'open'],
  ['shorted', 'shorted|short'],
  ['rectified mains', 'rectified mains|mains peak'],
]);

const ROLE_WORDS = lexicon<Role>([
  ['mains', 'mains'],
  ['bulk', 'bulk'],
  ['standby', 'standby'],
  ['main', 'main'],
  ['backlight', 'backlight'],
  ['part', 'part'],
]);

const BASIS_WORDS = lexicon<Basis>([
  ['board marking', 'board marking|marking|marked'],
  ['learned', 'learned|learnt'],
  ['common practice', 'common practice|practice'],
  ['typed in', 'typed in|typed'],
]);

export const readStage = (text: string): Stage | undefined => STAGE_WORDS.get(plainWords(text));
export const readSpecimen = (text: string): Specimen | undefined => SPECIMEN_WORDS.get(plainWords(text));
export const readOutcome = (text: string): Outcome | undefined => OUTCOME_WORDS.get(plainWords(text));
export const readKind = (text: string): BandKind | undefined => KIND_WORDS.get(plainWords(text));
export const readRole = (text: string): Role | undefined => ROLE_WORDS.get(plainWords(text));
export const readBasis = (text: string): Basis | undefined => BASIS_WORDS.get(plainWords(text));

/** The mode that a word or a meter's unit names; volts alone name none. */
export function readMode(text: string): Mode | undefined {
  const known = MODE_WORDS.get(plainWords(text));
  if (known) return known;
  const unit = parseUnit(text);
  return unit?.mode ?? modeOfUnit(unit?.unit);
}

/** The mode that a unit gives away by itself; volts may be direct, alternating or a diode's. */
export function modeOfUnit(unit: string | undefined): Mode | undefined {
  if (unit === 'Ω') return 'resistance';
  if (unit === 'F') return 'capacitance';
  return unit === 'A' ? 'current' : undefined;
}

/** `true` for yes, `false` for no or nothing, undefined for anything else. */
export function readYesNo(text: string): boolean | undefined {
  const word = plainWords(text);
  if (['yes', 'y', 'true', '1', 'x', 'boost', 'with'].includes(word)) return true;
  return ['', 'no', 'n', 'false', '0', 'none', 'without'].includes(word) ? false : undefined;
}

const SUMMARY =
  /^(?:sum|(?:sub|grand )?totals?|mean|average|avg|min|minimum|max|maximum|median|count|std(?: ?dev)?|stdev|samples|end(?: of .*)?|summe|mittelwert|moyenne|promedio|readings taken)$/;

/** Whether a cell is the label of a summary or footer line. */
export function isSummaryWord(text: string): boolean {
  return text.length < 60 && SUMMARY.test(plainWords(text));
}

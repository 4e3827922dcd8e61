import type { Field } from '../domain/file-plan.ts';
import { plainWords } from './words.ts';

const NAMES: readonly (readonly [Field, string])[] = [
  ['time', 'time|timestamp|time stamp|date time|datetime|date and time|when|measured at|logged at|recorded at|zeitstempel|horodatage'],
  ['date', 'date|day|datum|fecha|data'],
  ['clock', 'clock|time of day|clock time|uhrzeit|heure|hora'],
  ['elapsed', 'elapsed|elapsed time|elapsed s|elapsed seconds|elapsed ms|seconds|t s|time s|time ms|time min|relative time|rel time|run time'],
  ['repair', 'repair|repair id|repair no|repair number|job|job no|job id|ticket|case|work order|order|order no|id'],
  ['family', 'family|board family|board type|layout|model|board model'],
  ['point', 'point|test point|testpoint|tp|probe|node|position|location|measured point|measuring point|net|where'],
  ['stage', 'stage|step|phase|stage of work'],
  ['mode', 'mode|function|func|measurement type|quantity|meter mode|setting'],
  ['specimen', 'specimen|sample|which part'],
  ['reading', 'reading|value|measurement|measured|measured value|display|result|main display|messwert|wert|valeur|valor'],
  ['unit', 'unit|units|uom|einheit|unité|unidad'],
  ['meter', 'meter|instrument|dmm|multimeter|device|logger|messgerät|gerät'],
  ['complaint', 'complaint|symptom|fault|customer says|customer complaint|problem|fault reported'],
  ['received', 'received|date received|received on|date in|arrived|in'],
  ['returned', 'returned|date returned|returned on|date out|shipped|sent back|out'],
  ['outcome', 'outcome|disposition|how it ended|status'],
  ['replaced', 'parts replaced|replaced|parts|replaced parts|parts used|parts fitted'],
  ['comeback of', 'comeback of|comeback|came back from|earlier repair|repeat of'],
  ['bench', 'bench|workbench|workplace|work place|workstation|work station|station|repaired at'],
  ['boost', 'boost|boost stage|pfc'],
  ['role', 'role'],
  ['rail', 'rail'],
  ['part', 'part|designator|reference designator|ref des|refdes'],
  ['nodes', 'nodes|across|between nodes'],
  ['kind', 'kind|band kind|band'],
  ['low', 'low|low limit|lower|lower limit|from|lsl|min|minimum'],
  ['high', 'high|high limit|upper|upper limit|to|usl|max|maximum'],
  ['nominal', 'nominal|nominal value|target'],
  ['percent', 'percent|tolerance|tol|tolerance percent|+ percent|percent of reading|of reading|accuracy|accuracy percent'],
  ['basis', 'basis|source of band'],
  ['author', 'author|set by|who|by'],
  ['set on', 'set on|date set|since'],
  ['range limit', 'range limit|range|range up to|up to|full scale'],
  ['resolution', 'resolution|last digit'],
  ['counts', 'counts|+ counts|digits|+ digits|plus counts|plus digits'],
  ['over-range mark', 'over range mark|over range|over range shown as|overload mark'],
  ['calibration due', 'calibration due|cal due|calibrated until|calibration due on|next calibration'],
]; // prettier-ignore

const FIELDS_BY_NAME: ReadonlyMap<string, Field> = new Map(
  NAMES.flatMap(([field, names]) => names.split('|').map((name): [string, Field] => [name, field])),
);

/** The field that a header names, with or without a unit in brackets behind it; undefined where it names none. */
export function fieldOfHeader(header: string): Field | undefined {
  const whole = FIELDS_BY_NAME.get(plainWords(header));
  if (whole) return whole;
  const bare = header.slice(0, 200).replace(/[[({][^[\](){}]*[\])}]\s*$/, '');
  return FIELDS_BY_NAME.get(plainWords(bare));
}

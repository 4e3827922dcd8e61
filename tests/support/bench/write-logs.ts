import { prefixSymbol } from '../../../src/domain/prefix.ts';
import { formatShown, lastDigit, type DecimalMark, type Shown } from '../../../src/domain/quantity.ts';
import { MODE_UNITS, type Mode, type Reading, type Stage } from '../../../src/domain/reading.ts';

/** The project's own long form: comma, ISO local times, unit with the prefix that the meter showed. */
export function longForm(readings: readonly Reading[]): string {
  const header = 'time,repair,family,point,stage,mode,specimen,reading,unit,meter';
  return lines([
    header,
    ...readings.map((reading) => {
      const { time, repair, family, point, stage, mode, specimen, meter } = reading;
      const told = said(reading, { 'over-range': 'OL', 'below-range': '-OL', beep: 'beep', 'no beep': 'no beep' });
      const unit = reading.state === 'beep' || reading.state === 'no beep' ? '' : unitOf(reading);
      return [
        isoTime(time),
        repair,
        family,
        point,
        stage,
        mode,
        specimen,
        told ?? number(reading, '.'),
        unit,
        meter,
      ].join(',');
    }),
  ]);
}

const WIDE_COLUMNS: readonly (readonly [mode: Mode, prefix: number])[] = [
  ['DC volts', 0],
  ['AC volts', 0],
  ['resistance', 3],
  ['diode', 0],
  ['continuity', 0],
  ['capacitance', -6],
  ['ESR', 0],
  ['current', 0],
];

/**
 * One value column per mode: semicolon, decimal comma, units in the header, day.month.year and clock apart, no family.
 * A reading left blank would say nothing of its mode here and is not written.
 */
export function wideForm(readings: readonly Reading[]): string {
  const titles = WIDE_COLUMNS.map(([mode, prefix]) => `${mode} [${prefixSymbol(prefix)}${MODE_UNITS[mode]}]`);
  const rows = readings
    .filter(({ state }) => state !== 'blank')
    .map((reading) => {
      const [day = '', clock = ''] = isoTime(reading.time).split('T');
      const told = said(reading, { 'over-range': 'OL', 'below-range': '-OL', beep: 'beep', 'no beep': 'no beep' });
      const cells = WIDE_COLUMNS.map(([mode, prefix]) => {
        if (mode !== reading.mode) return '';
        return told ?? number({ ...reading, prefix, decimals: Math.max(0, prefix - lastDigit(reading)) }, ',');
      });
      const { repair, point, stage, specimen, meter } = reading;
      return [day.split('-').reverse().join('.'), clock, repair, point, stage, specimen, ...cells, meter].join(';');
    });
  return lines([['date', 'clock', 'board', 'probe', 'stage', 'specimen', ...titles, 'meter'].join(';'), ...rows]);
}

const STEPS: Readonly<Record<Stage, string>> = {
  'as received': 'received',
  'part out': 'out',
  refitted: 'refit',
  live: 'live',
  'run-in': 'run-in',
};

const FUNCTIONS: Readonly<Record<Mode, string>> = {
  continuity: 'cont',
  resistance: 'ohms',
  diode: 'diode',
  capacitance: 'cap',
  ESR: 'ESR',
  'DC volts': 'Vdc',
  'AC volts': 'Vac',
  current: 'current',
};

/** Tab, with units and over-range marks in the cells, and the bench's short words for stages and modes. */
export function tabForm(readings: readonly Reading[]): string {
  const header = ['When', 'Repair', 'Board', 'Test point', 'Step', 'Specimen', 'Function', 'Reading', 'Meter'];
  const rows = readings.map((reading) => {
    const told = said(reading, { 'over-range': 'OL', 'below-range': '-OL', beep: 'BEEP', 'no beep': 'NO BEEP' });
    const cell = told ?? `${number(reading, '.')} ${unitOf(reading)}`;
    const { time, repair, family, point, stage, mode, specimen, meter } = reading;
    return [
      isoTime(time).replace('T', ' '),
      repair,
      family,
      point,
      STEPS[stage],
      specimen,
      FUNCTIONS[mode],
      cell,
      meter,
    ];
  });
  return lines([header, ...rows].map((cells) => cells.join('\t')));
}

type Marks = Readonly<Record<Exclude<Reading['state'], 'value' | 'blank'>, string>>;

/** What stands in the cell of an answer that is no number. */
function said({ state }: Reading, marks: Marks): string | undefined {
  if (state === 'value') return undefined;
  return state === 'blank' ? '' : marks[state];
}

function number(reading: Pick<Reading, 'value' | 'mode'> & Shown, mark: DecimalMark): string {
  return formatShown(reading.value, MODE_UNITS[reading.mode], reading, mark).number.replace('\u2212', '-');
}

function unitOf({ prefix, mode }: Reading): string {
  return prefixSymbol(prefix) + MODE_UNITS[mode];
}

function isoTime(time: number): string {
  return new Date(time).toISOString().slice(0, 19);
}

function lines(rows: readonly string[]): string {
  return `${rows.join('\n')}\n`;
}

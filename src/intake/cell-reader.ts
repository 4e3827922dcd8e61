import { VALUE } from '../columns/reading-log.ts';
import type { ColumnUse, FilePlan, Given, PreviewCell } from '../domain/file-plan.ts';
import { formatShown, joinQuantity } from '../domain/quantity.ts';
import { MODE_UNITS, STATES } from '../domain/reading.ts';
import { GivenLines } from './given-lines.ts';
import { readHeader } from './header-text.ts';
import { nameUnder } from './names.ts';
import { beyondMeters } from './quantity-faults.ts';
import { QuantityScanner } from './quantity-scanner.ts';
import { readScale } from './prefix-column.ts';
import { stateOfWord } from './state-words.ts';
import { statusReader } from './status-words.ts';
import { TimeScanner } from './time-scanner.ts';
import { parseUnit } from './unit-text.ts';
import { readBasis, readKind, readMode, readOutcome, readRole, readSpecimen, readStage, readYesNo } from './words.ts';

interface Read {
  readonly read: string;
  readonly doubtful: boolean;
}

/** Says of single cells how a plan reads them: for the preview, where people look at each. */
export class CellReader {
  readonly #plan: FilePlan;
  readonly #unitColumn: number;
  readonly #modeColumn: number;
  readonly #prefixColumn: number;
  readonly #statusColumn: number;
  readonly #status: ReturnType<typeof statusReader> | undefined;
  readonly #hasDate: boolean;
  readonly #quantity: QuantityScanner;
  readonly #times = new TimeScanner();
  readonly #givenLines: GivenLines;
  #given: Given = {};

  constructor(plan: FilePlan) {
    this.#plan = plan;
    this.#quantity = new QuantityScanner(plan.overRangeMarks);
    this.#givenLines = new GivenLines(plan);
    this.#unitColumn = plan.columns.findIndex((use) => use.field === 'unit');
    this.#prefixColumn = plan.columns.findIndex((use) => use.field === 'prefix');
    this.#statusColumn = plan.columns.findIndex((use) => use.field === 'status');
    const status = plan.columns[this.#statusColumn];
    this.#status = status && statusReader(status.header);
    this.#hasDate = plan.columns.some((use) => use.field === 'date');
    this.#modeColumn = plan.columns.findIndex((use) => use.field === 'mode');
  }

  /** The cell in column `index` of the row that starts on `line`. */
  cell(cells: readonly string[], line: number, index: number): PreviewCell {
    this.#given = this.#givenLines.at(line);
    const text = cells[index] ?? '';
    const use = this.#plan.columns[index];
    const { read, doubtful } = use ? this.#read(use, cells, text) : { read: 'one cell too many', doubtful: true };
    return { text, read, doubtful };
  }

  #read(use: ColumnUse, cells: readonly string[], text: string): Read {
    switch (use.field) {
      case 'ignored':
        return { read: '', doubtful: false };
      case 'time':
      case 'date':
      case 'clock':
      case 'received':
      case 'returned':
      case 'set on':
      case 'calibration due':
        return this.#readTime(text, use.field === 'clock');
      case 'reading':
        return this.#readQuantity(use, cells, text);
      case 'stage':
        return word(text, readStage(text));
      case 'mode':
        return word(text, readMode(text));
      case 'specimen':
        return word(text, readSpecimen(text));
      case 'status':
        return word(text, statusReader(use.header)(text));
      case 'prefix':
        return word(text, readScale(text) === undefined ? undefined : text.trim());
      case 'outcome':
        return word(text, readOutcome(text));
      case 'kind':
        return word(text, readKind(text));
      case 'role':
        return word(text, readRole(text));
      case 'basis':
        return word(text, readBasis(text));
      case 'boost': {
        const yes = readYesNo(text);
        return word(text, yes === undefined ? undefined : yes ? 'yes' : 'no');
      }
      case 'unit': {
        const unit = parseUnit(text);
        return { read: text.trim(), doubtful: unit === undefined && text.trim() !== '%' };
      }
      case 'low':
      case 'high':
      case 'nominal':
      case 'percent':
      case 'range limit':
      case 'resolution':
      case 'counts':
      case 'elapsed': {
        const fault = this.#quantity.scan(
          text.replace(/^\s*[±+]\s*/, '').replace(/\s*%$/, ''),
          this.#plan.decimalMark,
          0,
        );
        return { read: text.trim(), doubtful: fault !== undefined || this.#quantity.loneGroup };
      }
      case 'repair':
      case 'family':
      case 'point':
      case 'meter':
      case 'complaint':
      case 'replaced':
      case 'comeback of':
      case 'bench':
      case 'rail':
      case 'part':
      case 'nodes':
      case 'author':
      case 'over-range mark':
        return { read: nameUnder(use.header, text), doubtful: use.field === 'repair' && text.trim() === '' };
    }
  }

  #readTime(text: string, isClock: boolean): Read {
    if (stateOfWord(text) === 'blank') return { read: '', doubtful: false };
    const times = this.#times;
    if (!(isClock && times.scanClock(text))) {
      const fault = times.scan(text, this.#plan.dateOrder);
      if (fault !== undefined) return { read: fault.wrong, doubtful: true };
    }
    const iso = new Date(times.time)
      .toISOString()
      .replace('T', ' ')
      .replace(/(\.000)?Z$/, '');
    const read = times.parts === 'moment' ? iso : times.parts === 'day' ? iso.slice(0, 10) : iso.slice(11);
    return {
      read,
      doubtful: times.parts === 'clock' && !(isClock && this.#hasDate) && this.#given.start === undefined,
    };
  }

  #readQuantity(use: ColumnUse, cells: readonly string[], text: string): Read {
    const quantity = this.#quantity;
    const rowUnit = parseUnit(cells[use.unitColumn ?? this.#unitColumn] ?? '') ?? { prefix: 0 };
    const hasRowUnit = rowUnit.unit !== undefined || rowUnit.prefix !== 0;
    const ofHeader = readHeader(use.header).unit;
    const scale = readScale(cells[this.#prefixColumn] ?? '') ?? 0;
    const prefix = hasRowUnit ? rowUnit.prefix || scale : scale || (use.prefix ?? ofHeader?.prefix ?? 0);
    const fault = quantity.scan(text, this.#plan.decimalMark, prefix) ?? beyondMeters(quantity.value);
    if (fault !== undefined) return { read: fault.wrong, doubtful: true };
    const status = this.#status?.(cells[this.#statusColumn] ?? '');
    if (status !== undefined && status !== 'ok') return { read: status, doubtful: false };
    if (quantity.state !== VALUE) return { read: STATES[quantity.state]!, doubtful: false };
    const mode = use.mode ?? readMode(cells[this.#modeColumn] ?? '') ?? this.#given.mode;
    const unit = quantity.unit ?? rowUnit.unit ?? ofHeader?.unit ?? (mode && MODE_UNITS[mode]);
    if (!unit) return { read: `${text.trim()}, of no known unit`, doubtful: true };
    return {
      read: joinQuantity(formatShown(quantity.value, unit, quantity, this.#plan.decimalMark)),
      doubtful: quantity.loneGroup,
    };
  }
}

function word(text: string, meaning: string | undefined): Read {
  if (text.trim() === '') return { read: '', doubtful: false };
  return { read: meaning ?? 'is no word that is known here', doubtful: meaning === undefined };
}

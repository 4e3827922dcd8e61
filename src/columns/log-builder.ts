import { MODES, SPECIMENS, STAGES, STATES, type Reading } from '../domain/reading.ts';
import { newLogNames, type LogNames, type ReadingLog } from './reading-log.ts';

type Column = Float64Array | Int8Array | Uint8Array | Uint16Array | Uint32Array;

/** Collects readings row by row into columns that double as they fill; `finish` gives the log. */
export class LogBuilder {
  readonly names: LogNames;
  count = 0;
  #capacity: number;
  #time: Float64Array;
  #value: Float64Array;
  #prefix: Int8Array;
  #decimals: Uint8Array;
  #state: Uint8Array;
  #specimen: Uint8Array;
  #repair: Uint32Array;
  #check: Uint32Array;
  #meter: Uint16Array;
  #file: Uint16Array;
  #line: Uint32Array;

  /** @param capacity - rows to make room for at first */
  constructor(names: LogNames = newLogNames(), capacity = 1024) {
    this.names = names;
    this.#capacity = capacity;
    this.#time = new Float64Array(capacity);
    this.#value = new Float64Array(capacity);
    this.#prefix = new Int8Array(capacity);
    this.#decimals = new Uint8Array(capacity);
    this.#state = new Uint8Array(capacity);
    this.#specimen = new Uint8Array(capacity);
    this.#repair = new Uint32Array(capacity);
    this.#check = new Uint32Array(capacity);
    this.#meter = new Uint16Array(capacity);
    this.#file = new Uint16Array(capacity);
    this.#line = new Uint32Array(capacity);
  }

  /** Adds one row given by codes of `names`; see {@link ReadingLog} for the units. */
  push(
    time: number,
    value: number,
    prefix: number,
    decimals: number,
    state: number,
    specimen: number,
    repair: number,
    check: number,
    meter: number,
    file: number,
    line: number,
  ): void {
    const row = this.count;
    if (row === this.#capacity) this.#grow();
    this.#time[row] = time;
    this.#value[row] = value;
    this.#prefix[row] = prefix;
    this.#decimals[row] = decimals;
    this.#state[row] = state;
    this.#specimen[row] = specimen;
    this.#repair[row] = repair;
    this.#check[row] = check;
    this.#meter[row] = meter;
    this.#file[row] = file;
    this.#line[row] = line;
    this.count = row + 1;
  }

  /** Adds one reading in words. */
  add(reading: Reading): void {
    const { names } = this;
    const check = names.checks.intern(
      names.families.intern(reading.family),
      names.points.intern(reading.point),
      STAGES.indexOf(reading.stage),
      MODES.indexOf(reading.mode),
    );
    this.push(
      reading.time,
      reading.value,
      reading.prefix,
      reading.decimals,
      STATES.indexOf(reading.state),
      SPECIMENS.indexOf(reading.specimen),
      names.repairs.intern(reading.repair),
      check,
      names.meters.intern(reading.meter),
      names.files.intern(reading.origin.file),
      reading.origin.line,
    );
  }

  /** The rows so far as a log; the builder must not be used afterwards. */
  finish(): ReadingLog {
    const { count, names } = this;
    const cut = <Kind extends Column>(column: Kind): Kind => column.slice(0, count) as Kind;
    return {
      count,
      names,
      time: cut(this.#time),
      value: cut(this.#value),
      prefix: cut(this.#prefix),
      decimals: cut(this.#decimals),
      state: cut(this.#state),
      specimen: cut(this.#specimen),
      repair: cut(this.#repair),
      check: cut(this.#check),
      meter: cut(this.#meter),
      file: cut(this.#file),
      line: cut(this.#line),
    };
  }

  #grow(): void {
    const capacity = 2 * this.#capacity;
    const wider = <Kind extends Column>(column: Kind): Kind => {
      const Wider = column.constructor as new (length: number) => Kind;
      const result = new Wider(capacity);
      result.set(column);
      return result;
    };
    this.#time = wider(this.#time);
    this.#value = wider(this.#value);
    this.#prefix = wider(this.#prefix);
    this.#decimals = wider(this.#decimals);
    this.#state = wider(this.#state);
    this.#specimen = wider(this.#specimen);
    this.#repair = wider(this.#repair);
    this.#check = wider(this.#check);
    this.#meter = wider(this.#meter);
    this.#file = wider(this.#file);
    this.#line = wider(this.#line);
    this.#capacity = capacity;
  }
}

import { isPowered, type Mode, type Reading, type Specimen, type Stage } from '../../../src/domain/reading.ts';
import { answer, SIMULATED_METERS, type Answer, type SimulatedMeter } from './meters.ts';
import type { Random } from './random.ts';

/** The true value behind a reading taken under power. */
export interface LiveTruth {
  /** Index into the readings of the whole simulation. */
  readonly reading: number;
  readonly value: number;
}

/** The name that readings carry as their file. */
export const SIMULATED_FILE = 'simulated bench';

const BLANK: Answer = { state: 'blank', value: NaN, prefix: 0, decimals: 0 };
const BELOW: Answer = { state: 'below-range', value: NaN, prefix: 6, decimals: 0 };

/** Takes readings of one repair and writes them down, one after another in time. */
export class Notebook {
  readonly live: LiveTruth[] = [];
  clock: number;
  readonly #readings: Reading[];
  readonly #repair: string;
  readonly #family: string;
  readonly #hand: SimulatedMeter;
  readonly #handOnly: boolean;
  readonly #random: Random;

  /**
   * @param readings - those of the whole bench, appended to
   * @param meter - the one that reads all of it, where the family has one of its own
   */
  constructor(readings: Reading[], repair: string, family: string, start: number, random: Random, meter?: string) {
    this.#readings = readings;
    this.#repair = repair;
    this.#family = family;
    this.clock = start;
    this.#random = random;
    const hand = random.chance(0.6) ? SIMULATED_METERS.M1 : SIMULATED_METERS.M2;
    const own = Object.values(SIMULATED_METERS).find(({ name }) => name === meter);
    this.#hand = own ?? hand;
    this.#handOnly = own !== undefined;
  }

  /** Lets time pass, in minutes. */
  pause(low: number, high: number): void {
    this.clock += 1000 * Math.round(60 * this.#random.uniform(low, high));
  }

  /** Reads with the meter in hand: whichever the technician took for this repair, or B1 for what only that measures. */
  read(point: string, stage: Stage, mode: Mode, truth: number, specimen: Specimen = 'board'): void {
    this.clock += 1000 * this.#random.whole(9, 38);
    const onLogger = mode === 'ESR' || (mode === 'DC volts' && this.#random.chance(0.2) && !this.#handOnly);
    const meter = onLogger ? SIMULATED_METERS.B1 : this.#hand;
    this.#write(point, stage, mode, specimen, meter.name, answer(meter, mode, truth, this.clock, this.#random), truth);
  }

  /** A charged capacitor drives the meter below its range. */
  readCharged(point: string, stage: Stage): void {
    this.clock += 1000 * this.#random.whole(9, 38);
    this.#write(point, stage, 'resistance', 'board', this.#hand.name, BELOW, NaN);
  }

  /** One entry of the bench logger, `seconds` after the last; now and then it leaves a cell blank. */
  log(point: string, stage: Stage, truth: number, seconds: number): void {
    this.clock += 1000 * seconds;
    const meter = SIMULATED_METERS.B1;
    const made = this.#random.chance(0.01) ? BLANK : answer(meter, 'DC volts', truth, this.clock, this.#random);
    this.#write(point, stage, 'DC volts', 'board', meter.name, made, truth);
  }

  #write(
    point: string,
    stage: Stage,
    mode: Mode,
    specimen: Specimen,
    meter: string,
    made: Answer,
    truth: number,
  ): void {
    if (isPowered(stage)) this.live.push({ reading: this.#readings.length, value: truth });
    this.#readings.push({
      time: this.clock,
      repair: this.#repair,
      family: this.#family,
      point,
      stage,
      mode,
      specimen,
      ...made,
      meter,
      origin: { file: SIMULATED_FILE, line: this.#readings.length + 1 },
    });
  }
}

import { MODES, STAGES, type Mode, type Stage } from '../domain/reading.ts';
import type { Check } from '../domain/check.ts';
import type { Dictionary } from './dictionary.ts';

/** The distinct checks of a log as four small columns; a reading stores only the number of its check. */
export class CheckTable {
  readonly #family: number[] = [];
  readonly #point: number[] = [];
  readonly #stage: number[] = [];
  readonly #mode: number[] = [];
  readonly #codes = new Map<number, number>();

  get size(): number {
    return this.#family.length;
  }

  /** The number of a check given by its codes, given now where it is new. Points are limited to 2^20, families to 2^24. */
  intern(family: number, point: number, stage: number, mode: number): number {
    const key = ((family * 0x100000 + point) * 8 + stage) * 8 + mode;
    const known = this.#codes.get(key);
    if (known !== undefined) return known;
    const code = this.#family.length;
    this.#family.push(family);
    this.#point.push(point);
    this.#stage.push(stage);
    this.#mode.push(mode);
    this.#codes.set(key, code);
    return code;
  }

  familyCode(check: number): number {
    return at(this.#family, check);
  }

  pointCode(check: number): number {
    return at(this.#point, check);
  }

  stageCode(check: number): number {
    return at(this.#stage, check);
  }

  modeCode(check: number): number {
    return at(this.#mode, check);
  }

  stage(check: number): Stage {
    return at(STAGES, this.stageCode(check));
  }

  mode(check: number): Mode {
    return at(MODES, this.modeCode(check));
  }

  /** The check in words. */
  check(check: number, families: Dictionary, points: Dictionary): Check {
    return {
      family: families.label(this.familyCode(check)),
      point: points.label(this.pointCode(check)),
      stage: this.stage(check),
      mode: this.mode(check),
    };
  }
}

function at<Item>(items: readonly Item[], index: number): Item {
  const item = items[index];
  if (item === undefined) throw new RangeError(`There is no check ${index}.`);
  return item;
}

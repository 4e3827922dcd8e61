/**
 * A private copy of the readings as a plain array, which the caller may sort.
 *
 * @param subject what is being computed, as the error names it, for example "tolerance factor"
 * @param minimum the fewest readings that make sense
 * @throws Error with too few readings, or when one is NaN or infinite. Cost: O(n).
 */
export function finiteReadings(subject: string, values: ArrayLike<number>, minimum: number): number[] {
  requireEnough(subject, values.length, minimum);
  const readings: number[] = [];
  for (let index = 0; index < values.length; index += 1) {
    const value = values[index]!;
    if (!Number.isFinite(value)) {
      throw new Error(`${subject} needs finite readings, got ${String(value)} at position ${String(index)}`);
    }
    readings.push(value);
  }
  return readings;
}

/** @throws Error when `count` is not a whole number of at least `minimum` readings. */
export function requireEnough(subject: string, count: number, minimum: number): void {
  if (!Number.isInteger(count) || count < minimum) {
    throw new Error(
      `${subject} needs at least ${String(minimum)} reading${minimum === 1 ? '' : 's'}, got ${String(count)}`,
    );
  }
}

/** @throws Error when `value` is not a whole number of at least `minimum`. */
export function requireWhole(subject: string, name: string, value: number, minimum: number): void {
  if (!Number.isSafeInteger(value) || value < minimum) {
    throw new Error(`${subject} needs a whole ${name} of at least ${String(minimum)}, got ${String(value)}`);
  }
}

/** @throws Error when `value` does not lie strictly between 0 and 1. */
export function requireShare(subject: string, name: string, value: number): void {
  if (!(value > 0 && value < 1)) {
    throw new Error(`${subject} needs a ${name} between 0 and 1, got ${String(value)}`);
  }
}

/** @throws Error when `value` is not finite, or lies below `minimum`. */
export function requireAtLeast(subject: string, name: string, value: number, minimum: number): void {
  if (!Number.isFinite(value) || value < minimum) {
    throw new Error(`${subject} needs a finite ${name} of at least ${String(minimum)}, got ${String(value)}`);
  }
}

/** A value of a scale and its place, in pixels. */
export interface Tick {
  readonly value: number;
  readonly place: number;
}

/** Ticks of a scale at round values. */
export function ticksOf(
  scale: { (value: number): number; ticks(count: number): number[] },
  count: number,
): readonly Tick[] {
  return scale.ticks(count).map((value) => ({ value, place: scale(value) }));
}

/** Room that a label below a scale takes, in pixels. */
const LABEL_ROOM = 68;

/** How many ticks fit below a scale without their labels touching. */
export function tickCount(width: number): number {
  return Math.max(2, Math.min(6, Math.floor(width / LABEL_ROOM)));
}

/** A place to a hundredth of a pixel, as path data needs no more. */
export function hundredths(place: number): number {
  return Math.round(place * 100) / 100;
}

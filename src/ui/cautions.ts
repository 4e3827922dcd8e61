/** The one that is shown beside live and primary-side work. */
export const CAUTION =
  'The bulk capacitor stays charged after mains is off: discharge it through a resistor, then measure it, before touching. Local rules come first.';

/** All of them, each whole. */
export const CAUTIONS: readonly string[] = [
  'The bulk capacitor holds a lethal charge after mains is off. Discharge it through a resistor, then measure it, before touching it or switching to ohms. Up to 60 V d.c. is the touch limit in IEC 62368-1 (ES1).',
  'The primary side is at mains potential: use an isolating transformer, work with one hand, clip no earthed scope lead to the hot side.',
  'Meter and leads must be rated for the job: measurement category and voltage as in IEC 61010, bulk and backlight included.',
  'Replace fuses only with the same type and rating. Power up first through a current limiter or a lamp in series.',
  'The backlight output can exceed 100 V d.c. while the set is dark.',
  'Mains work belongs to people whom local rules allow to do it.',
];

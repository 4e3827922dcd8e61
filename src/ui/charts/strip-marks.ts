import type { StripMarks } from '../../charts/strip.ts';
import { STATES, type State } from '../../domain/reading.ts';
import type { PastPoints } from '../../session/answers.ts';

/** The rows of a strip from its top, and the code of each in the worker's columns. */
export const STRIP_ROWS = [
  { name: 'known good', code: 1, tone: 'good' },
  { name: 'known bad', code: 2, tone: 'bad' },
  { name: 'unknown', code: 0, tone: 'unknown' },
] as const;

export const GOOD_ROW = 0;

const NO_ANSWER = 2;

/** Which side of the scale an answer lies beyond, as `StripMarks` has it. */
function beyondOf(state: State): number {
  switch (state) {
    case 'value':
      return 0;
    case 'over-range':
    case 'no beep':
      return 1;
    case 'below-range':
    case 'beep':
      return -1;
    case 'blank':
      return NO_ANSWER;
  }
}

/** Past readings as a strip draws them: a row for each standing, the second shape for boards that went back. */
export function stripMarks({ value, state, standing, returned }: PastPoints): StripMarks {
  const rowOf = Uint8Array.from({ length: STRIP_ROWS.length }, (_, code) =>
    STRIP_ROWS.findIndex((row) => row.code === code),
  );
  const beyond = Int8Array.from(STATES, beyondOf);
  return {
    value,
    beyond: Int8Array.from(state, (code) => beyond[code] ?? NO_ANSWER),
    row: standing.map((code) => rowOf[code] ?? 0),
    shape: returned,
  };
}

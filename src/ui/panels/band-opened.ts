import { limitsOf, type Band } from '../../domain/band.ts';
import type { Check } from '../../domain/check.ts';
import type { GoodRule } from '../../domain/good-rule.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { PastPoints, Trial } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { ruleOf } from './band-learning.ts';

/** A check, its past readings, and what its present band would do to them. */
export interface Opened {
  /** Tells the check and the state of the bench that it was opened at. */
  readonly key: string;
  readonly check: Check;
  /** By which boards count as known good. */
  readonly rule: GoodRule;
  readonly points: PastPoints;
  readonly present: Trial | undefined;
  /** Earlier bands of the place, latest first. */
  readonly history: readonly Band[];
}

const NO_POINTS: Omit<PastPoints, 'unit'> = {
  value: new Float64Array(),
  state: new Uint8Array(),
  standing: new Uint8Array(),
  returned: new Uint8Array(),
  rows: new Uint32Array(),
  lastDigit: -2,
};

/** Looks up all that the editor shows of a check. @param key - goes into the answer */
export async function openCheck(session: Session, key: string, check: Check, signal: AbortSignal): Promise<Opened> {
  const rule = await ruleOf(session, signal);
  const { family, point, stage, mode } = check;
  const filters = [
    { field: 'family', oneOf: [family] },
    { field: 'point', oneOf: [point] },
    { field: 'stage', oneOf: [stage] },
    { field: 'mode', oneOf: [mode] },
  ] as const;
  const { readings } = await session.ask('count', [{ filters, sort: [] }], signal);
  const points =
    readings === 0 ? await unread(session, check, signal) : await session.ask('pastPoints', [check, rule], signal);
  const { band } = points;
  const place: Band = band ?? { ...check, expects: { kind: 'at least', limit: 0 }, basis: 'typed in' };
  const [present, history] = await Promise.all([
    band === undefined || readings === 0 ? undefined : session.ask('tryBand', [check, band.expects, rule], signal),
    session.ask('bandHistory', [place], signal),
  ]);
  return { key, check, rule, points, present, history };
}

/** What there is to show of a check without a reading: its band alone. */
async function unread(
  session: Session,
  { family, point, stage, mode }: Check,
  signal: AbortSignal,
): Promise<PastPoints> {
  const { bands } = await session.ask('bands', [], signal);
  const own = bands
    .map(({ band }) => band)
    .filter((one) => one.family === family && one.point === point && one.mode === mode);
  const band = own.find((one) => one.stage === stage) ?? own.find((one) => one.stage === undefined);
  const limits = band && limitsOf(band.expects);
  return { ...NO_POINTS, unit: MODE_UNITS[mode], ...(band && { band }), ...(limits && { limits }) };
}

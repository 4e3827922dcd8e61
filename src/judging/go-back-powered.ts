import { isLiveBand } from '../domain/band.ts';
import { countOf, countText } from '../domain/count-text.ts';
import { TOUCH_LIMIT } from '../domain/discharge.ts';
import { roleOf, type Family, type Role } from '../domain/family.ts';
import { listText } from '../domain/list-text.ts';
import { isPowered } from '../domain/reading.ts';
import { isOutOfBand, NO_BAND, VERDICT_MASK } from '../domain/verdict.ts';
import { afterLastWork, held, isBulkVolts, isJudged, lastOfEach, type Held } from './go-back-case.ts';
import { pointsOf, said, were } from './go-back-words.ts';
import type { GoBackCase, JudgedReading } from './go-back.ts';

const SUPPLIES: readonly Role[] = ['bulk', 'standby', 'main', 'backlight'];

/** Of more excursions than this, the first are told. */
const MOST_SAID = 3;

export function liveLine(board: GoBackCase): Held {
  const wanted = [...new Set(board.bands.filter(isLiveBand).map(({ point }) => point))];
  const bare = withoutBand(board, wanted);
  if (wanted.length === 0 && bare.length === 0)
    return held('not measured', 'No live point of this family has a band to be held against.', []);
  const after = afterLastWork(board).filter(({ stage, specimen, point }) => stage === 'live' && specimen === 'board' && wanted.includes(point)); // prettier-ignore
  const last = lastOfEach(after);
  const out = last.filter(({ verdict }) => isOutOfBand(verdict));
  if (out.length > 0) return held('does not hold', `${said(out, board.mark)}, out of band.`, out);
  const missing = wanted.filter((point) => !after.some((reading) => reading.point === point));
  if (missing.length > 0)
    return held(
      'not measured',
      `${listText(missing)} ${were(missing)} not measured after the last part was fitted.`,
      last,
    );
  const unjudged = wanted.filter((point) => !last.some((reading) => reading.point === point && isJudged(reading)));
  if (unjudged.length > 0)
    return held('not measured', `${listText(unjudged)} ${were(unjudged)} read, and no answer can be held against a band.`, last); // prettier-ignore
  if (bare.length > 0) {
    const count = countOf(bare.length, 'live point', board.mark);
    return held('no band', `${count} without a band: ${listText(bare)}.`, last);
  }
  const unsteady = after.filter((reading) => isOutOfBand(reading.verdict) && !last.includes(reading));
  const before = unsteady.length === 0 ? '' : ` Before that, ${said(unsteady, board.mark)}, out of band.`;
  return held(
    'holds',
    `${countOf(wanted.length, 'live point', board.mark)} read after the last part was fitted, all in band.${before}`,
    last,
  );
}

/** Points that a running board shows and no live band judges: those read live on it, and its family's supplies unless read without power. */
function withoutBand({ readings, family }: GoBackCase, banded: readonly string[]): readonly string[] {
  const own = readings.filter(({ specimen }) => specimen === 'board');
  const read = own.filter(({ stage }) => stage === 'live').map(({ point }) => point);
  const unpowered = new Set(own.filter(({ stage }) => !isPowered(stage)).map(({ point }) => point));
  const supplies = (family?.points ?? []).filter(({ name, role }) => SUPPLIES.includes(role) && !unpowered.has(name));
  const all = new Set([...read, ...supplies.map(({ name }) => name)]);
  return [...all].filter((point) => !banded.includes(point) && roleIn(family, point) !== 'mains');
}

export function runInLine(board: GoBackCase): Held {
  const { mark } = board;
  const logged = afterLastWork(board).filter(({ stage }) => stage === 'run-in');
  const out = logged.filter(({ verdict }) => isOutOfBand(verdict));
  const judged = logged.filter(isJudged);
  if (logged.length === 0) return held('does not apply', 'No run-in was logged after the last part was fitted.', []);
  const all = entriesOf(logged);
  if (out.length > 0) {
    const few = said(out.slice(0, MOST_SAID), mark);
    return held(
      'does not hold',
      `${countText(entriesOf(out), mark)} of ${entriesText(all, mark)} out of band: ${few}.`,
      out,
    );
  }
  const bare = logged.filter(
    ({ verdict, point }) => (verdict & VERDICT_MASK) === NO_BAND && roleIn(board.family, point) !== 'mains',
  );
  if (bare.length > 0)
    return held('no band', `${entriesText(entriesOf(bare), mark)} of ${pointsOf(bare)} without a band to be held against.`, bare); // prettier-ignore
  if (judged.length === 0) return held('not measured', `${entriesText(all, mark)} of ${pointsOf(logged)}, and no answer can be held against a band.`, logged); // prettier-ignore
  const blank = entriesOf(logged.filter(({ state }) => state === 'blank'));
  const gaps = blank === 0 ? '' : `; ${countText(blank, mark)} ${blank === 1 ? 'is' : 'are'} blank`;
  return held('holds', `${entriesText(entriesOf(judged), mark)} of ${pointsOf(judged)} in band${gaps}.`, judged);
}

function roleIn(family: Family | undefined, point: string): Role {
  return family?.points.find(({ name }) => name === point)?.role ?? roleOf(point);
}

function entriesOf(readings: readonly JudgedReading[]): number {
  return readings.reduce((count, { alike = 0 }) => count + 1 + alike, 0);
}

function entriesText(count: number, mark: GoBackCase['mark']): string {
  return `${countText(count, mark)} ${count === 1 ? 'entry' : 'entries'}`;
}

export function dischargeLine(board: GoBackCase): Held {
  const { readings, mark } = board;
  const spells = unpoweredAfterPower(board);
  if (spells.length === 0) return held('does not apply', 'No unpowered work followed power.', []);
  const last = spells.map(({ from, to }) =>
    readings.slice(from, to).findLast((reading) => isBulkVolts(board, reading) && reading.state === 'value'),
  );
  const measured = last.flatMap((reading) => reading ?? []);
  const low = measured.filter(({ value }) => Math.abs(value) < TOUCH_LIMIT);
  const charged = measured.filter(({ stage, value }) => Math.abs(value) >= TOUCH_LIMIT && !isPowered(stage));
  if (charged.length > 0)
    return held('does not hold', `${said(charged, mark)} before unpowered work went on.`, charged);
  if (low.length < spells.length) {
    const times = spells.length - low.length;
    return held('not measured', `Unpowered work followed power ${times === 1 ? 'once' : `${countText(times, mark)} times`} with no reading of the bulk capacitor below 60 V d.c. between.`, low); // prettier-ignore
  }
  return held('holds', `${said(low, mark)} before unpowered work went on.`, low);
}

/** Spans of readings from the last powered one of a spell, itself included, to the first unpowered work after it. */
function unpoweredAfterPower(board: GoBackCase): readonly { from: number; to: number }[] {
  const spells: { from: number; to: number }[] = [];
  let from: number | undefined;
  board.readings.forEach((reading, at) => {
    if (isPowered(reading.stage)) from = at;
    else if (from !== undefined && reading.specimen === 'board' && !isBulkVolts(board, reading)) {
      spells.push({ from, to: at });
      from = undefined;
    }
  });
  return spells;
}

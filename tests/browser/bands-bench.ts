import { limitsOf, type Band, type Expectation } from '../../src/domain/band.ts';
import { changedSettings, NO_SETTINGS, type BenchSettings } from '../../src/domain/bench-settings.ts';
import type { Check } from '../../src/domain/check.ts';
import { STATES } from '../../src/domain/reading.ts';
import type { Session } from '../../src/session/session.ts';
import type { LearningSettings, PastPoints, ProposalLine, Rejudged, Trial } from '../../src/session/answers.ts';
import type { FakeAnswers, FakeClient } from '../session/fake-client.ts';
import { bands, openSession } from './app-bench.ts';

/** A rail with past readings, and answers about bands that follow from them. */

export const check: Check = { family: 'HERON-48', point: '24V main', stage: 'live', mode: 'DC volts' };
export const present: Band = {
  family: 'HERON-48',
  point: '24V main',
  mode: 'DC volts',
  expects: { kind: 'percent', nominal: 24, percent: 5 },
  basis: 'board marking',
  author: 'Tern Lane',
  date: '2025-11-03',
};

/** Readings of good boards at 23.6, 23.7, … 24.5 V, of bad ones at 24.4 and 26 V, one over-range. */
const READINGS: readonly (readonly [value: number, standing: number, state?: string])[] = [
  ...Array.from({ length: 10 }, (_, at): [number, number] => [Number((23.6 + at / 10).toFixed(1)), 1]),
  [24.4, 2],
  [26, 2],
  [NaN, 0, 'over-range'],
];

export function points(band: Band | undefined, copies = 1): PastPoints {
  const list = Array.from({ length: copies }, () => READINGS).flat();
  const limits = band && limitsOf(band.expects);
  return {
    unit: 'V',
    value: Float64Array.from(list, ([value]) => value),
    state: Uint8Array.from(list, ([, , state = 'value']) => STATES.findIndex((one) => one === state)),
    standing: Uint8Array.from(list, ([, standing]) => standing),
    returned: Uint8Array.from(list, ([, standing]) => (standing === 1 ? 1 : 0)),
    rows: Uint32Array.from(list, (_, row) => row),
    lastDigit: -2,
    ...(band && { band }),
    ...(limits && { limits }),
  };
}

function trialOf(expects: Expectation): Trial {
  const { low, high } = limitsOf(expects) ?? { low: -Infinity, high: Infinity };
  const of = (standing: number) => READINGS.filter(([, own]) => own === standing);
  const within = (standing: number) => of(standing).filter(([value]) => value >= low && value <= high).length;
  return {
    goodStopped: { count: 10 - within(1), of: 10, share: { low: 0, high: 0.28 } },
    badLetThrough: { count: within(2), of: 2, share: { low: 0.09, high: 0.91 } },
  };
}

function proposalLine(settings: LearningSettings, changes: Partial<ProposalLine> = {}): ProposalLine {
  const kept = settings.keptRows.includes(9);
  const expects = { kind: 'between', low: kept ? 23.2 : 23.4, high: 24.9 } as const;
  return {
    check,
    readings: 10,
    proposal: {
      band: { ...check, expects, basis: 'learned' },
      limits: expects,
      method: 'normal',
      scale: 'linear',
      count: kept ? 10 : 9,
      overRange: 0,
      normality: 0.42,
      removed: [{ row: 9, value: 24.5, statistic: 2.91, critical: 2.48, modifiedZ: 4.2, kept }],
      putRight: [{ meter: 'M2', percent: 1.6, readings: 4 }],
      warnings: ['The readings fall into two groups: two revisions of the board may be mixed together.'],
      boardsWanted: 0,
      trial: trialOf(expects),
    },
    ...changes,
  };
}

const REJUDGED: Rejudged = {
  readings: 3,
  changes: [
    { from: 'pass', to: 'fail', readings: 2 },
    { from: 'fail', to: 'pass', readings: 1 },
  ],
  repairs: ['T-0131', 'T-0009'],
};

/** A session whose band of the rail can be set and taken back. */
export async function openBands(own: FakeAnswers = {}): Promise<{ session: Session; client: FakeClient }> {
  const earlier: (Band | undefined)[] = [];
  let band: Band | undefined = present;
  let settings: BenchSettings = NO_SETTINGS;
  return openSession({
    bands: () => bands,
    settings: () => settings,
    changeSettings: ([changes]) => (settings = changedSettings(settings, changes)),
    count: () => ({ readings: READINGS.length, outOfBand: 0, repairs: 0 }),
    facet: ([, field]) =>
      field === 'meter'
        ? [{ value: 'M1', count: 1200 }, { value: 'B1', count: 351 }] // prettier-ignore
        : [{ value: 'run-in', count: 4 }, { value: 'live', count: READINGS.length }], // prettier-ignore
    pastPoints: () => points(band),
    tryBand: ([, expects]) => trialOf(expects),
    propose: ([, settings]) => proposalLine(settings),
    proposeFamily: ([, settings]) => [
      proposalLine(settings),
      {
        check: { ...check, point: '5V standby' },
        readings: 1,
        reason: 'A band needs readings of at least two good boards, and there is one.',
      },
    ],
    bandHistory: () => [...earlier].reverse().filter((one) => one !== undefined),
    setBands: ([[next]]) => {
      earlier.push(band);
      band = next;
      return REJUDGED;
    },
    removeBand: () => {
      earlier.push(band);
      band = undefined;
      return REJUDGED;
    },
    undo: () => {
      band = earlier.pop();
      return REJUDGED;
    },
    bandsText: () => 'family,boost\r\n',
    setFamily: () => ({ readings: 0, repairs: 0, families: 3, bands: 0 }),
    meters: () => [{ name: 'M1', accuracies: [{ mode: 'DC volts', upTo: 60, percent: 0.5, counts: 2 }] }],
    setMeters: () => REJUDGED,
    ...own,
  });
}

import { isPowered } from '../../src/domain/reading.ts';
import { partClass } from '../../src/domain/family.ts';
import { evidenceOf } from '../../src/judging/evidence.ts';
import { nextOn } from '../../src/worker/bench/what-next.ts';
import type { WhatNext } from '../../src/worker/contract/repairs.ts';
import type { ExaminedBench } from './examined-bench.ts';
import { probingChecks } from './examined-bench.ts';

/** A chance that was told of a board, and what was true of it. */
export interface ToldChance {
  readonly kind: WhatNext['kind'];
  readonly chance: number;
  readonly isTrue: boolean;
}

/** How much of a board's readings as received are known when its next check is asked for. */
const SHARES = [0, 0.5, 1];

/**
 * What to measure next on each board of a simulated bench, from the repairs before it alone, beside the truth: asked before anything is measured,
 * after half of the readings as received, and after all of them. A check shows the fault where it measures a part that has really failed; fuses,
 * which blow as an effect, count only where nothing else has.
 */
export function chancesTold(bench: ExaminedBench): {
  readonly told: readonly ToldChance[];
  readonly answers: readonly WhatNext[];
} {
  const { log, verdicts, rowsByRepair, truth } = bench;
  const { checks: codes, points, repairs: ids } = log.names;
  const told: ToldChance[] = [];
  const answers: WhatNext[] = [];
  for (const { family, repairs } of bench.families) {
    const checks = probingChecks(bench, family);
    repairs.forEach(({ repair, record }, at) => {
      const rows = [...rowsByRepair[ids.find(repair)]!];
      const stop = rows.findIndex((row) => codes.stage(log.check[row]!) !== 'as received');
      const received = rows.slice(0, stop < 0 ? rows.length : stop).filter((row) => !isPowered(codes.stage(log.check[row]!))); // prettier-ignore
      const failed = (truth.get(repair)?.failed ?? []).map(({ part }) => part);
      const causes = failed.some((part) => partClass(part) !== 'F') ? failed.filter((part) => partClass(part) !== 'F') : failed; // prettier-ignore
      for (const share of SHARES) {
        const known = received.slice(0, Math.round(share * received.length));
        const next = nextOn(
          {
            family,
            complaint: record?.complaint ?? '',
            evidence: evidenceOf(log, verdicts, known, family),
            measured: new Set(known.map((row) => points.label(codes.pointCode(log.check[row]!)))),
            earlier: repairs.slice(0, at),
            checks,
            lifting: new Map(),
          },
          '.',
        );
        answers.push(next);
        told.push(...chancesIn(next, causes));
      }
    });
  }
  return { told, answers };
}

function chancesIn({ kind, inQuestion, noneOfThese }: WhatNext, causes: readonly string[]): readonly ToldChance[] {
  const shows = inQuestion.map(({ parts }) => parts.some((part) => causes.includes(part)));
  const first = shows.indexOf(true);
  return [
    ...inQuestion.map(({ chance }, at) => ({ kind, chance, isTrue: kind === 'lift' ? shows[at]! : at === first })),
    ...(noneOfThese === undefined ? [] : [{ kind, chance: noneOfThese, isTrue: first < 0 }]),
  ];
}

/** One bin of a reliability curve. */
export interface ReliabilityBin {
  readonly from: number;
  readonly to: number;
  readonly count: number;
  readonly meanTold: number;
  readonly shareTrue: number;
}

/** The reliability curve: the chances told in bins of equal width, beside the share that came true (Murphy and Winkler 1977, Applied Statistics 26:41-47). */
export function reliabilityCurve(told: readonly ToldChance[], bins = 10): readonly ReliabilityBin[] {
  return Array.from({ length: bins }, (_, bin) => {
    const own = told.filter(({ chance }) => Math.min(bins - 1, Math.floor(chance * bins)) === bin);
    const mean = (of: (one: ToldChance) => number): number => own.reduce((sum, one) => sum + of(one), 0) / own.length;
    return {
      from: bin / bins,
      to: (bin + 1) / bins,
      count: own.length,
      meanTold: mean(({ chance }) => chance),
      shareTrue: mean(({ isTrue }) => (isTrue ? 1 : 0)),
    };
  }).filter(({ count }) => count > 0);
}

/** Mean squared error of the chances (Brier 1950, Monthly Weather Review 78:1-3). */
export function brierScore(told: readonly ToldChance[]): number {
  return told.reduce((sum, { chance, isTrue }) => sum + (chance - (isTrue ? 1 : 0)) ** 2, 0) / told.length;
}

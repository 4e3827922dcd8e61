import type { BenchCalls } from '../../session/answers.ts';

/** What it takes to decide about one board. */
export type RepairDecision = NonNullable<ReturnType<BenchCalls['decision']>>;
/** One thing that must hold before it goes back. */
export type GoBackEntry = RepairDecision['goBack'][number];
export type PartComparison = RepairDecision['comparisons'][number];
export type Repair = Parameters<BenchCalls['setRepair']>[0];
/** What to measure next on a board. */
export type WhatNext = NonNullable<ReturnType<BenchCalls['whatNext']>>;
/** One rail as it was logged in a run-in. */
export type RunInLine = ReturnType<BenchCalls['runIns']>[number];

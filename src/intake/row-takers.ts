import type { FilePlan } from '../domain/file-plan.ts';
import { BandRows } from './band-rows.ts';
import { MeterRows } from './meter-rows.ts';
import { ReadingRows } from './reading-rows.ts';
import { RepairRows } from './repair-rows.ts';

/** What turns the rows of a file into records, by the shape that its plan states. */
export function takerFor(file: string, plan: FilePlan): ReadingRows | RepairRows | BandRows | MeterRows {
  switch (plan.shape) {
    case 'repairs':
      return new RepairRows(plan);
    case 'bands':
      return new BandRows(plan);
    case 'meters':
      return new MeterRows(plan);
    case 'readings':
    case 'unknown':
      return new ReadingRows(plan, file);
  }
}

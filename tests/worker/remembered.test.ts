import { describe, expect, test } from 'vitest';
import { EMPTY_BENCH, judgeBench } from '../../src/worker/bench/bench-data.ts';
import { remembered } from '../../src/worker/bench/remembered.ts';

describe('remembered(find)', () => {
  const judged = judgeBench(EMPTY_BENCH);
  const counted = () => {
    let finds = 0;
    return remembered(() => (finds += 1));
  };

  test('finds once for the same readings, verdicts, repairs and families, whatever else changes', () => {
    const found = counted();
    expect(found(judged)).toBe(1);
    expect(found({ ...judged, data: { ...judged.data, settings: { ...judged.data.settings, fee: 40 } } })).toBe(1);
  });

  test('finds anew for other verdicts, repairs or families', () => {
    const found = counted();
    expect(found(judged)).toBe(1);
    expect(found({ ...judged, verdicts: judged.verdicts.slice() })).toBe(2);
    expect(found({ ...judged, data: { ...judged.data, repairs: new Map() } })).toBe(3);
    expect(found({ ...judged, data: { ...judged.data, families: new Map() } })).toBe(4);
  });
});

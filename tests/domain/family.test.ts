import { describe, expect, test } from 'vitest';
import { designatorOf, maskedBy, maskingGroups, partClass, pointFromName, roleOf } from '../../src/domain/family.ts';

describe('points by their names', () => {
  test('designatorOf(point) finds a designator at the start and nowhere else', () => {
    expect(['Q1 D→S', 'BR1 ~→+', 'F1', 'D3_A-K', 'R14', '12V main', 'backlight', 'VQ1', 'standby 5V'].map(designatorOf)).toEqual(
      ['Q1', 'BR1', 'F1', 'D3', 'R14', undefined, undefined, undefined, undefined],
    ); // prettier-ignore
  });

  test('partClass(designator) gives the letters', () => {
    expect(['BR1', 'Q12', 'F1'].map(partClass)).toEqual(['BR', 'Q', 'F']);
  });

  test('roleOf(point) knows the supplies by the words of the trade', () => {
    expect(['mains', 'bulk', '5V standby', '12V main', 'backlight 2', 'Q1 D→S'].map(roleOf)).toEqual([
      'mains',
      'bulk',
      'standby',
      'main',
      'backlight',
      'part',
    ]);
  });

  test('pointFromName(name) ties a point to its part only where it names one', () => {
    expect(pointFromName('Q1 D→S')).toEqual({ name: 'Q1 D→S', role: 'part', part: 'Q1' });
    expect(pointFromName('bulk')).toEqual({ name: 'bulk', role: 'bulk' });
  });
});

describe('masking', () => {
  const parts = [
    { designator: 'Q1', nodes: ['drain', 'source'] },
    { designator: 'Q2', nodes: ['source', 'drain'] },
    { designator: 'F1', nodes: ['L', 'L fused'] },
  ] as const;

  test('maskingGroups(parts) joins parts across the same two nodes, whichever is named first', () => {
    expect(maskingGroups(parts)).toEqual([['Q1', 'Q2']]);
  });

  test('maskedBy(parts, designator) names the others of its group', () => {
    expect(maskedBy(parts, 'Q1')).toEqual(['Q2']);
    expect(maskedBy(parts, 'F1')).toEqual([]);
    expect(maskedBy(parts, 'Q9')).toEqual([]);
  });

  test('maskingGroups(parts) does not confuse node names that join to the same text', () => {
    const odd = [
      { designator: 'C1', nodes: ['a,b', 'c'] },
      { designator: 'C2', nodes: ['a', 'b,c'] },
    ] as const;
    expect(maskingGroups(odd)).toEqual([]);
  });
});

import { describe, expect, test } from 'vitest';
import { BAND_KINDS, bandFault } from '../../../src/domain/band.ts';
import { maskingGroups, pointFromName } from '../../../src/domain/family.ts';
import { BANDS, FAMILIES, FAMILY_MODELS } from './scenario.ts';

describe('the invented scenario', () => {
  test('holds a usable band of every kind, and none for the new family', () => {
    expect(new Set(BANDS.map(({ expects }) => expects.kind))).toEqual(new Set(BAND_KINDS));
    expect(BANDS.map(({ expects }) => bandFault(expects)).filter((fault) => fault !== undefined)).toEqual([]);
    expect(BANDS.filter(({ family }) => family === 'SISKIN-40')).toEqual([]);
  });

  test('names its points so that their role and part follow from the name alone', () => {
    for (const { points } of FAMILIES) {
      for (const { name, role, part } of points)
        expect(pointFromName(name)).toMatchObject(part ? { role, part } : { role });
    }
  });

  test('has the masking groups that its families are about', () => {
    const groups = Object.fromEntries(FAMILIES.map(({ name, parts }) => [name, maskingGroups(parts)]));
    expect(groups).toEqual({
      'PLOVER-32': [],
      'HERON-48': [['D4', 'D5']],
      'CURLEW-60': [['Q1', 'Q2'], ['D11', 'D12', 'D13']],
      'SISKIN-40': [],
    }); // prettier-ignore
  });

  test('tells stories only of parts and points that the family has', () => {
    for (const { parts, rails, stories, habit } of FAMILY_MODELS) {
      const designators = parts.map(({ designator }) => designator);
      const told = stories.flatMap(({ first, takes }) => [
        ...first.map(([[part]]) => part),
        ...takes.map(({ part }) => part),
      ]);
      expect(designators).toEqual(expect.arrayContaining([...told, ...habit]));
      const shown = stories.flatMap(({ symptoms }) => Object.keys(symptoms));
      expect(rails.map(({ point }) => point)).toEqual(expect.arrayContaining(shown));
    }
  });
});

import { describe, expect, test } from 'vitest';
import type { Family } from '../../src/domain/family.ts';
import {
  EMPTY_FAMILY,
  EMPTY_PART,
  EMPTY_POINT,
  familyDraftOf,
  familyNotes,
  readFamily,
  renamedPoint,
  type FamilyDraft,
} from '../../src/ui/panels/family-editor-draft.ts';

const family: Family = {
  name: 'CURLEW-60',
  boost: true,
  points: [
    { name: '18V main a', role: 'main', rail: '18V main' },
    { name: '18V main b', role: 'main', rail: '18V main' },
    { name: 'Q1 D→S', role: 'part', part: 'Q1' },
  ],
  parts: [
    { designator: 'Q1', nodes: ['drain', 'source'] },
    { designator: 'Q2', nodes: ['source', 'drain'] },
  ],
};
const draft = familyDraftOf(family, family.name);

function faultOf(changes: Partial<FamilyDraft>): string | undefined {
  const read = readFamily({ ...draft, ...changes });
  return 'fault' in read ? read.fault : undefined;
}

test('a family is given back as its draft was made of it, and a copy under another name', () => {
  expect(readFamily(draft)).toEqual({ family });
  expect(readFamily(familyDraftOf(family, 'CURLEW-61'))).toEqual({ family: { ...family, name: 'CURLEW-61' } });
});

test('rows that are still empty are no points and no parts, and blanks around texts are dropped', () => {
  const rows = { points: [...draft.points, EMPTY_POINT], parts: [EMPTY_PART, ...draft.parts], name: ' CURLEW-60 ' };
  expect(readFamily({ ...draft, ...rows })).toEqual({ family });
});

test.each([
  [{ name: ' ' }, 'A family needs a name.'],
  [
    { points: [...draft.points, { ...EMPTY_POINT, rail: '12V' }] },
    'A test point has a part or a rail and no name: name it.',
  ],
  [{ points: [...draft.points, draft.points[0]!] }, 'The test point 18V main a stands there twice: rename one.'],
  [
    { points: [{ ...EMPTY_POINT, name: 'gate', role: 'part' as const }] },
    'The test point gate measures a part: say which.',
  ],
  [{ parts: [{ designator: 'D3', first: '12V', second: '' }] }, 'The part D3 needs both of its nodes.'],
  [{ parts: [{ designator: '', first: '12V', second: 'ground' }] }, 'A part has nodes and no designator: name it.'],
  [
    { parts: [{ designator: 'D3', first: '12V', second: '12V' }] },
    'The part D3 has one node on both ends: name the other node.',
  ],
])('says what is wrong: %#', (changes, sentence) => {
  expect(faultOf(changes)).toBe(sentence);
});

test('a typed name tells role and part, until somebody says otherwise', () => {
  const steps = Array.from('Q1 D→S', (_, at) => 'Q1 D→S'.slice(0, at + 1));
  const typed = steps.reduce(renamedPoint, EMPTY_POINT);
  expect(typed).toEqual({ name: 'Q1 D→S', role: 'part', part: 'Q1', rail: '' });
  expect(renamedPoint(EMPTY_POINT, '5V standby').role).toBe('standby');
  expect(renamedPoint({ ...typed, role: 'main', part: 'U7' }, 'Q2 D→S')).toMatchObject({ role: 'main', part: 'U7' });
});

describe('familyNotes(draft)', () => {
  test('says which parts mask each other, which points must agree, and which parts have no nodes', () => {
    const notes = familyNotes({
      ...draft,
      points: [...draft.points, { name: 'D9', role: 'part', part: 'D9', rail: '' }],
    });
    expect(notes).toEqual([
      'Q1 and Q2 lie across the same nodes: in circuit they mask each other, and only a reading with the part out tells which is bad.',
      '18V main a and 18V main b carry 18V main and must agree.',
      'D9 has no nodes yet, so that nobody knows what masks it.',
    ]);
  });

  test('says nothing of a family that has nothing yet', () => {
    expect(familyNotes(EMPTY_FAMILY)).toEqual([]);
  });
});

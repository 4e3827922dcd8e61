import { describe, expect, test } from 'vitest';
import { bandShape, repairShape } from '../../src/store/bench-shapes.ts';
import { ShapeFault, count, listOf, moment, oneOf, optional, shape, text } from '../../src/store/fields.ts';
import { planShape } from '../../src/store/import-shapes.ts';
import { jsonBytes, readJson } from '../../src/store/json-bytes.ts';
import { stateShape } from '../../src/store/state-shapes.ts';
import { bandOf, plan, repairOf, state } from './fixtures.ts';

const note = shape<{ title: string; page?: number }>({ title: text, page: optional(count(9)) });

describe('a record of unknown shape', () => {
  test('is built anew with its known fields', () => {
    const given = { title: 'a', page: 3 };
    expect(note(given, 'note')).toEqual(given);
    expect(note(given, 'note')).not.toBe(given);
    expect(note({ title: 'a' }, 'note')).toEqual({ title: 'a' });
  });

  test.each([
    ['is no record', 7],
    ['is a list', ['a']],
    ['is null', null],
    ['lacks a field', { page: 1 }],
    ['has a field of another type', { title: 1 }],
    ['has a number beyond its limit', { title: 'a', page: 10 }],
    ['has a fraction for a whole number', { title: 'a', page: 1.5 }],
    ['has a stray field', { title: 'a', more: 1 }],
    ['has a field named by a symbol', { title: 'a', [Symbol('x')]: 1 }],
    ['names its prototype', JSON.parse('{"title":"a","__proto__":{"page":1}}')],
    ['names a constructor', { title: 'a', constructor: 1 }],
    ['has its field from a prototype alone', Object.create({ title: 'a' })],
  ])('is refused where it %s', (_name, given: unknown) => {
    expect(() => note(given, 'note')).toThrow(ShapeFault);
  });

  test('leaves the prototype of all objects as it was', () => {
    const before = Reflect.ownKeys(Object.prototype);
    expect(() => note(JSON.parse('{"title":"a","__proto__":{"pwned":true}}'), 'note')).toThrow(ShapeFault);
    expect(Reflect.ownKeys(Object.prototype)).toEqual(before);
    expect(({} as Record<string, unknown>).pwned).toBeUndefined();
  });

  test('names the place of its fault', () => {
    expect(() => listOf(note)([{ title: 'a' }, { title: 2 }], 'notes')).toThrow('notes[1].title is no text');
  });
});

test('a text longer than a cell may be is refused', () => {
  expect(text('x'.repeat(1_048_576), 'cell')).toHaveLength(1_048_576);
  expect(() => text('x'.repeat(1_048_577), 'cell')).toThrow('longer');
});

test('a list longer than its limit is refused', () => {
  expect(listOf(text, 2)(['a', 'b'], 'list')).toHaveLength(2);
  expect(() => listOf(text, 2)(['a', 'b', 'c'], 'list')).toThrow('more than 2');
});

test('an unknown moment is null in JSON', () => {
  expect(moment(JSON.parse(JSON.stringify(NaN)), 'day')).toBeNaN();
  expect(() => moment(Infinity, 'day')).toThrow(ShapeFault);
});

test('only the values known are taken', () => {
  expect(oneOf(['a', 'b'])('b', 'x')).toBe('b');
  expect(() => oneOf(['a', 'b'])('toString', 'x')).toThrow(ShapeFault);
});

describe('JSON bytes', () => {
  const nested = (depth: number): Uint8Array => new TextEncoder().encode('['.repeat(depth) + ']'.repeat(depth));
  const anything = (value: unknown): unknown => value;

  test('are read to a depth of 16 and no deeper', () => {
    expect(readJson(nested(15), anything, 'x')).toBeInstanceOf(Array);
    expect(readJson(nested(16), anything, 'x')).toBeInstanceOf(Array);
    expect(() => readJson(nested(17), anything, 'x')).toThrow('deeper than 16');
    expect(() => readJson(nested(1_000_000), anything, 'x')).toThrow('deeper than 16');
  });

  test('may hold any number of brackets and quotes in a text', () => {
    const odd = `${'['.repeat(50)}"\\"${'{'.repeat(50)}`;
    expect(readJson(jsonBytes(odd), text, 'x')).toBe(odd);
  });

  test('that are cut off or no UTF-8 are refused', () => {
    expect(() => readJson(jsonBytes({ a: 1 }).slice(0, -1), anything, 'x')).toThrow('no JSON');
    expect(() => readJson(Uint8Array.of(0x22, 0xff, 0x22), anything, 'x')).toThrow('no JSON');
  });
});

describe('what the bench knows', () => {
  test('comes back from JSON as it was', () => {
    expect(readJson(jsonBytes(state), stateShape, 'state')).toEqual(state);
    expect(readJson(jsonBytes(plan), planShape, 'plan')).toEqual(plan);
    expect(repairShape(repairOf('T-0002'), 'repair')).toEqual(repairOf('T-0002'));
  });

  test('holds no band that cannot be used', () => {
    const band = bandOf('12V main', 5);
    expect(bandShape(band, 'band')).toEqual(band);
    expect(() => bandShape(bandOf('12V main', -5), 'band')).toThrow('no band that can be used');
    const crossed = { ...band, expects: { kind: 'between', low: 5, high: 1 } };
    expect(() => bandShape(crossed, 'band')).toThrow('no band that can be used');
    expect(() => bandShape({ ...band, expects: { kind: 'valueOf' } }, 'band')).toThrow(ShapeFault);
    expect(() => bandShape({ ...band, expects: { kind: 'open', limit: NaN } }, 'band')).toThrow(ShapeFault);
  });
});

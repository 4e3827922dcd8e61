import { describe, expect, test } from 'vitest';
import { planFault, givenFields } from '../../src/session/plan-check.ts';
import {
  withField,
  withGiven,
  withHeader,
  withRange,
  withRangeAdded,
  withRangeGiven,
  withReadingUse,
  withShape,
} from '../../src/session/plan-edits.ts';
import { DECIMAL, ORDER, planOf, use } from './plan-of.ts';

const fieldsOf = (plan: ReturnType<typeof planOf>) => plan.columns.map(({ field }) => field);

describe('withField(plan, index, field)', () => {
  test('reads one column as another field, and says that it was chosen', () => {
    const plan = withField(planOf(), 3, 'meter');
    expect(plan.columns[3]).toEqual({ header: 'Stage', field: 'meter', reason: 'is your choice', doubtful: false });
  });

  test('lets the earlier column of that field give way', () => {
    const plan = withField(planOf(), 2, 'repair');
    expect(fieldsOf(plan).slice(1, 3)).toEqual(['ignored', 'repair']);
    expect(plan.columns[1]?.reason).toBe('gave way to another column of repair');
  });

  test('takes a second column of readings as a point of its own, named as its header', () => {
    const wide = planOf({ columns: [use('Job', 'repair'), use('12V main', 'reading'), use('24V main', 'ignored')] });
    expect(withField(wide, 2, 'reading').columns.map(({ point }) => point)).toEqual([
      undefined,
      '12V main',
      '24V main',
    ]);
  });

  test('tells the shape of a file that nothing was known of, as soon as the field does', () => {
    const unknown = planOf({ shape: 'unknown', columns: [use('a', 'ignored'), use('b', 'ignored')] });
    expect(withField(unknown, 0, 'repair').shape).toBe('unknown');
    expect(withField(unknown, 0, 'reading').shape).toBe('readings');
    expect(withField(unknown, 0, 'complaint').shape).toBe('repairs');
    expect(withField(unknown, 0, 'low').shape).toBe('bands');
  });
});

test('withShape(plan, shape) leaves out the columns that such a table does not have', () => {
  expect(fieldsOf(withShape(planOf(), 'repairs'))).toEqual(['ignored', 'repair', 'ignored', 'ignored', 'ignored', 'ignored']); // prettier-ignore
});

describe('withHeader(plan, line, cells)', () => {
  test('names the columns anew and reads each place as before', () => {
    const plan = withHeader(planOf(), 4, ['t', 'board']);
    expect(plan.headerLine).toBe(4);
    expect(plan.columns.map(({ header }) => header)).toEqual(['t', 'board', '', '', '', '']);
    expect(fieldsOf(plan)).toEqual(fieldsOf(planOf()));
  });

  test('makes room for more cells than there were columns, and takes the line of units away with the header', () => {
    const plan = withHeader(planOf({ unitsLine: true }), 0, ['1', '2', '3', '4', '5', '6', '7']);
    expect(plan).toMatchObject({ headerLine: 0, unitsLine: false });
    expect(plan.columns).toHaveLength(7);
    expect(plan.columns[6]?.field).toBe('ignored');
  });
});

test('withReadingUse(plan, index, changes) and withGiven(plan, key, value) leave no empty entry behind', () => {
  const stated = withReadingUse(planOf(), 5, { mode: 'diode', prefix: -3 });
  expect(stated.columns[5]).toMatchObject({ mode: 'diode', prefix: -3 });
  expect('mode' in withReadingUse(stated, 5, { mode: undefined }).columns[5]!).toBe(false);
  const given = withGiven(planOf(), 'repair', 'T-0131');
  expect(given.given).toEqual({ repair: 'T-0131' });
  expect(withGiven(given, 'repair', '').given).toEqual({});
});

describe('givenFields(plan)', () => {
  test('asks for what no column says, and needs what a reading cannot be without', () => {
    const stream = planOf({ columns: [use('time', 'elapsed'), use('value', 'reading'), use('unit', 'unit')] });
    expect(givenFields(stream).filter(({ required }) => required).map(({ key }) => key)).toEqual(['repair', 'point', 'stage', 'start']); // prettier-ignore
    expect(givenFields(planOf()).map(({ key }) => key)).toEqual(['family', 'specimen', 'meter']);
  });

  test('asks for no point where every column of readings is one', () => {
    const columns = [use('Job', 'repair'), use('a', 'reading', { point: 'a' }), use('b', 'reading', { point: 'b' })];
    expect(givenFields(planOf({ columns })).map(({ key }) => key)).not.toContain('point');
  });

  test('asks nothing for tables', () => {
    expect(givenFields(planOf({ shape: 'repairs' }))).toEqual([]);
  });
});

describe('planFault(waiting)', () => {
  test('asks for each open answer in turn, and then for nothing', () => {
    const plan = planOf({ questions: [DECIMAL, ORDER] });
    expect(planFault({ plan, answered: [] })?.about).toBe('decimal mark');
    expect(planFault({ plan, answered: ['decimal mark'] })?.about).toBe('date order');
    expect(planFault({ plan, answered: ['decimal mark', 'date order'] })).toBeUndefined();
  });

  test.each([
    ['a shape', planOf({ shape: 'unknown' }), 'columns'],
    ['a column of readings', planOf({ columns: [use('Job', 'repair')] }), 'columns'],
    ['a column of repairs', planOf({ shape: 'repairs', columns: [use('a', 'complaint')] }), 'columns'],
    ['what no column says', planOf({ columns: [use('Value', 'reading')] }), 'given'],
  ])('wants %s, and says so in a sentence', (_what, plan, about) => {
    const fault = planFault({ plan, answered: [] });
    expect(fault?.about).toBe(about);
    expect(fault?.text).toMatch(/^[A-Z].{20,}\.$/);
  });
});

describe('ranges of lines', () => {
  test('begin behind the last one, are changed in place and removed', () => {
    const one = withRangeAdded(planOf({ headerLine: 1 }));
    expect(one.givenRanges).toEqual([{ from: 2, to: 2, given: {} }]);
    const stated = withRange(one, 0, withRangeGiven({ from: 2, to: 40, given: {} }, 'repair', 'T-0131'));
    const two = withRangeAdded(stated);
    expect(two.givenRanges?.map(({ from }) => from)).toEqual([2, 41]);
    expect(withRange(two, 0, undefined).givenRanges).toEqual([{ from: 41, to: 41, given: {} }]);
    expect(withRangeGiven({ from: 1, to: 2, given: { repair: 'T-1' } }, 'repair', '').given).toEqual({});
  });

  test('settle what the file as a whole does not say', () => {
    const columns = [use('Time', 'time'), use('Value', 'reading')];
    const given = { repair: 'T-0131', point: 'bulk', stage: 'live' } as const;
    const plan = planOf({ columns, questions: [], givenRanges: [{ from: 2, to: 9, given }] });
    expect(planFault({ plan, answered: [] })).toBeUndefined();
    expect(planFault({ plan: { ...plan, givenRanges: [] }, answered: [] })?.about).toBe('given');
  });
});

import { describe, expect, test } from 'vitest';
import type { RepairLine } from '../../src/session/answers.ts';
import { FIRST_ORDER, orderRepairs, parseOrder, turnedOrder, writeOrder } from '../../src/ui/panels/repairs-order.ts';

function line(id: string, changes: Partial<RepairLine['repair']> = {}, counts: Partial<RepairLine> = {}): RepairLine {
  const repair: RepairLine['repair'] = {
    id,
    family: 'HERON-48',
    complaint: 'no standby light',
    received: NaN,
    returned: NaN,
    outcome: 'open',
    replaced: [],
    ...changes,
  };
  return { repair, readings: 0, outOfBand: 0, listed: true, ...counts };
}

function ids(lines: readonly RepairLine[]): readonly string[] {
  return lines.map(({ repair }) => repair.id);
}

describe('orderRepairs(lines, text, order)', () => {
  test('puts ids in the order of their numbers', () => {
    const lines = Object.freeze([line('T-10'), line('T-9'), line('T-100')]);
    expect(ids(orderRepairs(lines, '', { column: 'repair', descending: false }))).toEqual(['T-9', 'T-10', 'T-100']);
  });

  test('puts the newest first and days that nobody wrote down last', () => {
    const lines = [line('T-1', { received: 1 }), line('T-2'), line('T-3', { received: 3 })];
    expect(ids(orderRepairs(lines, '', FIRST_ORDER))).toEqual(['T-3', 'T-1', 'T-2']);
  });

  test('keeps ids rising among equals, whichever way the column runs', () => {
    const lines = [line('T-2'), line('T-1'), line('T-3', {}, { outOfBand: 2 })];
    expect(ids(orderRepairs(lines, '', { column: 'out of band', descending: true }))).toEqual(['T-3', 'T-1', 'T-2']);
    expect(ids(orderRepairs(lines, '', { column: 'out of band', descending: false }))).toEqual(['T-1', 'T-2', 'T-3']);
  });

  test('finds repairs that hold every word, in whatever field and case', () => {
    const lines = [line('T-1', { replaced: ['Q1', 'F1'] }), line('T-2', { complaint: 'Flicker' }), line('T-3')];
    const find = (text: string) => ids(orderRepairs(lines, text, { column: 'repair', descending: false }));
    expect(find('heron q1')).toEqual(['T-1']);
    expect(find('FLICKER')).toEqual(['T-2']);
    expect(find('  ')).toEqual(['T-1', 'T-2', 'T-3']);
    expect(find('flicker q1')).toEqual([]);
  });

  test('orders 5,000 repairs as sorting each pair would', () => {
    const lines = Array.from({ length: 5000 }, (_, at) => line(`T-${at}`, {}, { readings: (at * 7919) % 101 }));
    const ordered = orderRepairs(lines, '', { column: 'readings', descending: false });
    expect(ordered).toHaveLength(5000);
    expect(ordered.every((entry, at) => at === 0 || ordered[at - 1]!.readings <= entry.readings)).toBe(true);
  });
});

describe('the order in the address', () => {
  test('is read as it was written', () => {
    const order = { column: 'out of band', descending: true } as const;
    expect(writeOrder(order)).toBe('-out of band');
    expect(parseOrder(writeOrder(order))).toEqual(order);
  });

  test.each([null, '', '-', 'weight', '-__proto__'])('is the first one for %j', (text) => {
    expect(parseOrder(text)).toEqual(FIRST_ORDER);
  });

  test("turns by presses on a column's head", () => {
    const byFamily = turnedOrder(FIRST_ORDER, 'family');
    expect(byFamily).toEqual({ column: 'family', descending: false });
    expect(turnedOrder(byFamily, 'family')).toEqual({ column: 'family', descending: true });
    expect(turnedOrder(byFamily, 'readings')).toEqual({ column: 'readings', descending: true });
  });
});

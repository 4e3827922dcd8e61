import { describe, expect, test } from 'vitest';
import type { Band } from '../../src/domain/band.ts';
import { planOf, read, utf8 } from './support.ts';

const shapeOf = (text: string): string => planOf(utf8(text)).shape;

describe('a small table of repairs is taken for one', () => {
  test.each([
    'repair,family,complaint\nT-1,HERON-48,flicker\nT-2,PLOVER-32,no standby light\n',
    'repair,outcome\nT-1,returned working\nT-2,comeback\n',
    'repair,parts replaced\nT-1,F1 Q1\nT-2,R47\n',
    'job;returned\nT-1;2026-02-01\n',
    'repair;received\n0001;20260201\n',
    'repair,comeback of\nT-9,T-1\n',
    'repair,complaint,fee\nT-1,flicker,35\nT-2,burnt smell,35\n',
    'repair,family,complaint,received,returned,outcome,parts replaced,comeback of\n',
  ])('%j', async (text) => {
    expect(shapeOf(text)).toBe('repairs');
    const contents = await read(utf8(text));
    expect(contents).toMatchObject({ setAsideRows: 0, taken: text.trimEnd().split('\n').length - 1 });
  });

  test('its cells are kept', async () => {
    const contents = await read(utf8('repair,family,complaint\nT-1,HERON-48,flicker\n'));
    expect(contents).toMatchObject({
      repairs: [{ id: 'T-1', family: 'HERON-48', complaint: 'flicker', received: NaN, outcome: 'open' }],
    });
  });

  test.each(['bench', 'Workplace', 'station', 'Work station'])(
    'the column “%s” names the bench, where there is one',
    async (header) => {
      const contents = await read(utf8(`repair,complaint,${header}\nT-1,flicker,door\nT-2,flicker,2\nT-3,flicker,\n`));
      if (contents.shape !== 'repairs') throw new Error('The file holds no repairs.');
      expect(contents.repairs.map(({ bench }) => bench)).toEqual(['door', '2', undefined]);
    },
  );
});

describe('a table of readings is none of repairs', () => {
  test.each([
    'repair,outcome,bulk,standby\nT-1,comeback,389.4,4.98\n',
    'repair,complaint,point,stage,reading,unit\nT-1,flicker,bulk,live,389.4,V\n',
    'repair;in [V];out [V]\nT-1;230;12,1\n',
    'repair,in,out\nT-1,230,12.1\nT-2,231,12.0\n',
    'repair;complaint;F1 as received [Ω];Q1 as received [kΩ]\nT-1;flicker;0,2;640\n',
  ])('%j', (text) => {
    expect(shapeOf(text)).toBe('readings');
  });
});

describe('a small table of bands is taken for one', () => {
  const bandsOf = async (text: string): Promise<readonly Band[]> => {
    const plan = planOf(utf8(text));
    expect(plan.shape).toBe('bands');
    const contents = await read(utf8(text), { ...plan, given: { family: 'HERON-48' } });
    if (contents.shape !== 'bands') throw new Error('The file holds no bands.');
    expect(contents.setAside).toEqual([]);
    return contents.bands;
  };

  test('of point, low, high and unit: each row says its kind by its limits', async () => {
    const bands = await bandsOf('point,low,high,unit\nstandby,4.75,5.25,V\nF1,,1,Ω\nQ1,100,,kΩ\nD5,0.4,0.7,V\n');
    expect(bands.map(({ point, mode, expects }) => [point, mode, expects])).toEqual([
      ['standby', 'DC volts', { kind: 'between', low: 4.75, high: 5.25 }],
      ['F1', 'resistance', { kind: 'at most', limit: 1 }],
      ['Q1', 'resistance', { kind: 'at least', limit: 100_000 }],
      ['D5', 'diode', { kind: 'between', low: 0.4, high: 0.7 }],
    ]);
  });

  test('of point, min and max with their unit in the header', async () => {
    const [band] = await bandsOf('point;min [kΩ];max [kΩ]\nQ1 D-S;0,5;1,5\n');
    expect(band?.expects).toEqual({ kind: 'between', low: 500, high: 1500 });
  });

  test('of family, point, nominal and tolerance', async () => {
    const [band] = await bandsOf('family,point,nominal,tolerance,unit\nPLOVER-32,main 12 V,12,5%,V\n');
    expect(band).toMatchObject({ family: 'PLOVER-32', expects: { kind: 'percent', nominal: 12, percent: 5 } });
  });

  test('the family is asked for where no column says it', () => {
    const { questions } = planOf(utf8('point,low,high,unit\nstandby,4.75,5.25,V\n'));
    expect(questions).toEqual([{ about: 'given', text: expect.stringContaining('which board family') as string }]);
  });

  test('a log that carries its limits is a log all the same', () => {
    expect(shapeOf('time,repair,point,stage,reading,low,high,unit\n2026-03-01 08:15,T-1,bulk,live,389,380,400,V\n')).toBe('readings'); // prettier-ignore
  });
});

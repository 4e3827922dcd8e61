import { describe, expect, test } from 'vitest';
import type { BenchHandlers } from '../../src/worker/contract/calls.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { ask } from '../support/asking.ts';

const HEADER = 'meter,mode,range limit,resolution,percent,counts,over-range mark';

/** A bench with one reading of 12.61 V by M1 against 12 V ± 5 %. */
async function benchWithReading(): Promise<BenchHandlers> {
  const bench = createBench();
  const log =
    'time,repair,family,point,stage,mode,reading,meter\n2026-03-01 08:15,T-1,HERON-48,12V main,live,DC volts,12.61,M1\n';
  const bands = 'family,point,mode,nominal,percent\nHERON-48,12V main,DC volts,12,5\n';
  await ask(bench, 'bringIn', [new File([bands], 'bands.csv'), new File([log], 'log.csv')]);
  return bench;
}

async function verdicts(bench: BenchHandlers): Promise<readonly string[]> {
  return (await ask(bench, 'facet', { filters: [], sort: [] }, 'verdict')).map(({ value }) => value);
}

describe('readMeters(text)', () => {
  test('reads a table with tabs or commas, and changes nothing', async () => {
    const bench = createBench();
    const row = ['M1', 'DC volts', '60 V', '0.01 V', '0.5', '3', ''];
    const expected = [{ name: 'M1', accuracies: [{ mode: 'DC volts', upTo: 60, resolution: 0.01, percent: 0.5, counts: 3 }] }]; // prettier-ignore
    for (const separator of [',', '\t', ';']) {
      const text = [HEADER.replaceAll(',', separator), row.join(separator)].join('\n');
      expect(await ask(bench, 'readMeters', text)).toEqual({ meters: expected, faults: [] });
    }
    expect(await ask(bench, 'meters')).toEqual([]);
  });

  test('tells rows that cannot be read by line and column', async () => {
    const { meters, faults } = await ask(createBench(), 'readMeters', `${HEADER}\nM1,DC volts,60,0.01,0.5,3,\nM2,DC volts,60,0.01,-1,3,\n`); // prettier-ignore
    expect(meters.map(({ name }) => name)).toEqual(['M1']);
    expect(faults).toMatchObject([{ line: 3, column: 'percent' }]);
  });

  test.each(['', 'M1 is quite accurate', 'time,reading\n2026-03-01 08:15,12\n', HEADER])(
    'refuses %j with a sentence',
    async (text) => {
      await expect(ask(createBench(), 'readMeters', text)).rejects.toThrow('This is no table of meters: start with');
    },
  );
});

describe('a table of meters that is brought in', () => {
  const table = `${HEADER}\nM1,DC volts,60,0.01,0.5,3,-OFL-\n`;

  test('weighs the meter’s uncertainty from then on, until it is taken back', async () => {
    const bench = await benchWithReading();
    expect(await verdicts(bench)).toEqual(['fail']);
    const { records } = await ask(bench, 'bringIn', [new File([table], 'meters.csv')]);
    expect(records).toMatchObject([{ shape: 'meters', rows: 1, taken: 1, setAside: 0 }]);
    expect(await verdicts(bench)).toEqual(['conditional fail']);
    await ask(bench, 'takeBack', records[0]!.hash);
    expect(await ask(bench, 'meters')).toEqual([]);
    expect(await verdicts(bench)).toEqual(['fail']);
  });

  test('tells what the meter shows above its range, for logs that come after it', async () => {
    const bench = await benchWithReading();
    const log =
      'time,repair,family,point,stage,mode,reading,meter\n2026-03-01 09:15,T-2,HERON-48,12V main,live,DC volts,-ofl-,M1\n';
    const [before] = (await ask(bench, 'bringIn', [new File([log], 'before.csv')])).records;
    expect(before).toMatchObject({ taken: 0, setAside: 1 });
    await ask(bench, 'bringIn', [new File([table], 'meters.csv')]);
    const [after] = (await ask(bench, 'bringIn', [new File([`${log}\n`], 'after.csv')])).records;
    expect(after).toMatchObject({ taken: 1, setAside: 0 });
  });

  test('is set together, and taken back together', async () => {
    const bench = await benchWithReading();
    const { meters } = await ask(bench, 'readMeters', table);
    expect(await ask(bench, 'setMeters', meters)).toMatchObject({ readings: 1 });
    await expect(ask(bench, 'setMeters', [...meters, { name: '', accuracies: [] }])).rejects.toThrow('A meter needs a name.'); // prettier-ignore
    expect(await ask(bench, 'undo')).toMatchObject({ readings: 1 });
    expect(await ask(bench, 'meters')).toEqual([]);
  });
});

import { afterAll, beforeAll, expect, test } from 'vitest';
import { WorkerLost, createBenchClient, startBenchWorker, type BenchClient } from '../../src/worker/client.ts';

let client: BenchClient;

beforeAll(() => {
  client = createBenchClient();
});

afterAll(() => {
  client.close();
});

test('the worker starts and answers', async () => {
  expect(await client.call('summary', [])).toEqual({ readings: 0, repairs: 0, families: 0, bands: 0 });
});

test('a log is read in, counted and judged in the worker', async () => {
  const bands = new File(
    ['family,point,mode,kind,nominal,percent,unit,basis\nHERON-48,12V main,DC volts,percent,12,5,V,typed in\n'],
    'bands.csv',
  );
  const log = new File(
    [
      'time,repair,family,point,stage,mode,reading,unit,meter\n',
      '2026-03-14T09:59:33,T-0131,HERON-48,12V main,live,DC volts,12.02,V,M1\n',
      '2026-03-14T10:02:00,T-0132,HERON-48,12V main,live,DC volts,13.10,V,M1\n',
    ],
    'shift.csv',
  );
  const progress: string[] = [];
  const outcome = await client.call('bringIn', [[bands, log]], { onProgress: ({ file }) => progress.push(file) });
  expect(outcome.refused).toEqual([]);
  expect(outcome.records.map(({ file, taken }) => [file, taken])).toEqual([['bands.csv', 1], ['shift.csv', 2]]); // prettier-ignore
  expect(progress).toContain('shift.csv');
  expect(await client.call('count', [{ filters: [], sort: [] }])).toEqual({ readings: 2, outOfBand: 1, repairs: 2 });
});

test('a call that the worker cannot answer ends with a sentence, and the next one is answered', async () => {
  const bad = [{ filters: 'none', sort: [] }] as unknown as [{ filters: []; sort: [] }];
  await expect(client.call('count', bad)).rejects.toThrow();
  expect((await client.call('summary', [])).readings).toBe(2);
});

test('a worker that stops is replaced by an empty one', async () => {
  const workers: Worker[] = [];
  const own = createBenchClient(() => {
    const worker = startBenchWorker();
    workers.push(worker);
    return worker;
  });
  await own.call('summary', []);
  const lost = own.call('families', []);
  workers[0]!.dispatchEvent(new ErrorEvent('error', { message: 'made to stop' }));
  await expect(lost).rejects.toBeInstanceOf(WorkerLost);
  expect((await own.call('summary', [])).readings).toBe(0);
  expect(workers).toHaveLength(2);
  own.close();
});

test('nothing in the worker can reach outside', async () => {
  const entry = new URL('../../src/worker/entry.ts', import.meta.url).href;
  const names = ['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'WebTransport'];
  const source = `
    const names = ${JSON.stringify(names)}.filter((name) => name in self);
    await import(${JSON.stringify(entry)});
    self.postMessage({ before: names, after: names.filter((name) => name in self) });`;
  const address = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
  const worker = new Worker(address, { type: 'module' });
  const ways = await new Promise((resolve, reject) => {
    worker.onerror = (event) => {
      reject(new Error(event.message));
    };
    worker.onmessage = ({ data }: MessageEvent<{ after?: readonly string[] }>) => {
      if (data.after !== undefined) resolve(data);
    };
  });
  worker.terminate();
  URL.revokeObjectURL(address);
  expect(ways).toEqual({ before: names, after: [] });
});

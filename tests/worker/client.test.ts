import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { CallCancelled, WorkerLost, createBenchClient } from '../../src/worker/client.ts';
import type { FromWorker, ToWorker } from '../../src/worker/contract/messages.ts';

/** Stands in a worker's place: remembers what it was sent, and says what the test has it say. */
class FakeWorker {
  readonly sent: ToWorker[] = [];
  terminated = false;
  onmessage: ((event: { data: FromWorker }) => void) | null = null;
  onmessageerror: (() => void) | null = null;
  onerror: ((event: { message: string; preventDefault: () => void }) => void) | null = null;

  postMessage(message: ToWorker): void {
    // Thrown by a real worker for what cannot be copied.
    structuredClone(message);
    this.sent.push(message);
  }

  terminate(): void {
    this.terminated = true;
  }

  say(message: FromWorker): void {
    this.onmessage?.({ data: message });
  }

  crash(message = ''): void {
    this.onerror?.({ message, preventDefault: () => undefined });
  }
}

const summary = { readings: 1, repairs: 2, families: 3, bands: 4 };

function start(startLimit = 1000) {
  const workers: FakeWorker[] = [];
  const client = createBenchClient(() => {
    const worker = new FakeWorker();
    workers.push(worker);
    return worker as unknown as Worker;
  }, startLimit);
  return { client, workers };
}

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.useRealTimers();
});

describe('a call', () => {
  test('starts the worker, sends its name and arguments and gives the answer', async () => {
    const { client, workers } = start();
    expect(workers).toHaveLength(0);
    const answer = client.call('repair', ['T-0131']);
    expect(workers[0]!.sent).toEqual([{ id: 1, call: 'repair', args: ['T-0131'] }]);
    workers[0]!.say({ ready: true });
    workers[0]!.say({ id: 1, result: undefined });
    await expect(answer).resolves.toBeUndefined();
  });

  test('gets its own answer when answers come out of order', async () => {
    const { client, workers } = start();
    const first = client.call('summary', []);
    const second = client.call('families', []);
    workers[0]!.say({ id: 2, result: [] });
    workers[0]!.say({ id: 1, result: summary });
    await expect(first).resolves.toEqual(summary);
    await expect(second).resolves.toEqual([]);
    expect(workers).toHaveLength(1);
  });

  test('passes progress on until it is answered', async () => {
    const { client, workers } = start();
    const rows: number[] = [];
    const answer = client.call('bringIn', [[]], { onProgress: (progress) => rows.push(progress.rows) });
    const progress = { file: 'a.csv', fileNumber: 1, files: 1, bytes: 1, totalBytes: 2, rows: 10 };
    workers[0]!.say({ id: 1, progress });
    workers[0]!.say({ id: 1, progress: { ...progress, rows: 20 } });
    workers[0]!.say({ id: 1, result: { records: [], setAside: [], refused: [] } });
    workers[0]!.say({ id: 1, progress: { ...progress, rows: 30 } });
    await answer;
    expect(rows).toEqual([10, 20]);
  });

  test("ends with the worker's own sentence where the worker says that it failed", async () => {
    const { client, workers } = start();
    const answer = client.call('summary', []);
    workers[0]!.say({ id: 1, error: 'There is no row 7.', cancelled: false });
    await expect(answer).rejects.toThrow('There is no row 7.');
  });

  test('fails alone where its arguments cannot be sent', async () => {
    const { client, workers } = start();
    const other = client.call('summary', []);
    await expect(client.call('repair', [(() => 1) as unknown as string])).rejects.toThrow(/could not be cloned/);
    workers[0]!.say({ id: 1, result: summary });
    await expect(other).resolves.toEqual(summary);
  });
});

describe('a cancelled call', () => {
  test('asks the worker to stop and ends when the worker has stopped', async () => {
    const { client, workers } = start();
    const controller = new AbortController();
    const answer = client.call('bringIn', [[]], { signal: controller.signal });
    controller.abort();
    expect(workers[0]!.sent.at(-1)).toEqual({ id: 1, cancel: true });
    workers[0]!.say({ id: 1, error: 'Stopped.', cancelled: true });
    await expect(answer).rejects.toBeInstanceOf(CallCancelled);
  });

  test('sends nothing where it was cancelled before it began', async () => {
    const { client, workers } = start();
    await expect(client.call('summary', [], { signal: AbortSignal.abort() })).rejects.toBeInstanceOf(CallCancelled);
    expect(workers).toHaveLength(0);
  });

  test('sends no cancel after its answer', async () => {
    const { client, workers } = start();
    const controller = new AbortController();
    const answer = client.call('summary', [], { signal: controller.signal });
    workers[0]!.say({ id: 1, result: summary });
    await answer;
    controller.abort();
    expect(workers[0]!.sent).toHaveLength(1);
  });
});

describe('a worker that stops', () => {
  test('rejects every pending call with a sentence, and a new one takes its place at the next call', async () => {
    const { client, workers } = start();
    const pending = [client.call('summary', []), client.call('families', [])];
    workers[0]!.crash('out of memory');
    for (const call of pending) {
      await expect(call).rejects.toBeInstanceOf(WorkerLost);
      await expect(call).rejects.toThrow('The part of the page that holds the readings stopped (out of memory).');
    }
    expect(workers[0]!.terminated).toBe(true);
    const next = client.call('summary', []);
    workers[1]!.say({ id: 3, result: summary });
    await expect(next).resolves.toEqual(summary);
  });

  test('is told of once, also where no call waits for it', async () => {
    const worker = new FakeWorker();
    const told: WorkerLost[] = [];
    const client = createBenchClient(
      () => worker as unknown as Worker,
      1000,
      undefined,
      (error) => told.push(error),
    );
    const answer = client.call('summary', []);
    worker.say({ id: 1, result: summary });
    await answer;
    worker.crash('out of memory');
    worker.crash('again');
    expect(told.map(({ message }) => message)).toEqual([
      'The part of the page that holds the readings stopped (out of memory).',
    ]);
  });

  test('rejects what is pending where an answer cannot be read', async () => {
    const { client, workers } = start();
    const answer = client.call('summary', []);
    workers[0]!.onmessageerror?.();
    await expect(answer).rejects.toThrow('could not be read');
  });

  test('does not take the worker after it down with a late error', async () => {
    const { client, workers } = start();
    const lost = client.call('summary', []);
    workers[0]!.crash();
    await expect(lost).rejects.toThrow('holds the readings stopped.');
    const next = client.call('summary', []);
    workers[0]!.crash();
    workers[1]!.say({ id: 2, result: summary });
    await expect(next).resolves.toEqual(summary);
  });

  test('ends what is pending when the client is closed', async () => {
    const { client } = start();
    const answer = client.call('summary', []);
    client.close();
    await expect(answer).rejects.toBeInstanceOf(WorkerLost);
  });
});

describe('a worker that does not start', () => {
  test('is given up after the limit', async () => {
    const { client, workers } = start(1000);
    const answer = client.call('summary', []);
    const outcome = expect(answer).rejects.toThrow('did not start: reload the page.');
    await vi.advanceTimersByTimeAsync(1000);
    await outcome;
    expect(workers[0]!.terminated).toBe(true);
  });

  test('is waited for without end once it has said that it is there', async () => {
    const { client, workers } = start(1000);
    const answer = client.call('summary', []);
    workers[0]!.say({ ready: true });
    await vi.advanceTimersByTimeAsync(100_000);
    workers[0]!.say({ id: 1, result: summary });
    await expect(answer).resolves.toEqual(summary);
  });
});

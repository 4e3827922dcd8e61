import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import '../../src/ui/app.ts';
import type { ImportOutcome } from '../../src/session/answers.ts';
import { CallCancelled } from '../../src/worker/client.ts';
import { DECIMAL, planOf } from '../session/plan-of.ts';
import { openSession } from './app-bench.ts';
import { all, drawn, show, textOf, violations } from './app-page.ts';

const nothingRead: ImportOutcome = { records: [], setAside: [], refused: [] };

async function showApp(...session: Parameters<typeof openSession>) {
  const opened = await openSession(...session);
  const app = await show('bt-app', { session: opened.session });
  await placeShown(app);
  return { ...opened, app };
}

/** Waits until the place that the address names is loaded and drawn. */
async function placeShown(app: Element): Promise<void> {
  await expect.poll(() => all(app, 'main > [role=status]').length).toBe(0);
  await drawn(app);
}

/** Goes to an address as a link would, and waits until the page has followed. */
async function follow(hash: string, app: Element): Promise<void> {
  location.hash = hash;
  await new Promise((resolve) => {
    window.addEventListener('hashchange', resolve, { once: true });
  });
  await placeShown(app);
}

beforeEach(() => {
  history.replaceState(null, '', '#/shift');
});

afterEach(() => {
  document.body.replaceChildren();
});

describe('<bt-app>', () => {
  test('renders', async () => {
    const { app } = await showApp();
    expect(all(app, 'nav a').map((link) => link.textContent.trim())).toEqual([
      'Shift',
      'Readings',
      'Repairs',
      'Bands',
      'Families',
    ]);
    expect(textOf(app, '.bench p')).toBe('Tern Lane (sample, invented) · 4,012 readings · 152 repairs');
    expect(all(app, 'main > bt-shift-place')).toHaveLength(1);
  });

  test('is accessible', async () => {
    const { app } = await showApp();
    expect(await violations(document.documentElement, true)).toEqual([]);
    await follow('#/repairs', app);
    expect(await violations(document.documentElement, true)).toEqual([]);
  });
});

describe('the address', () => {
  test.each([
    ['#/readings', 'bt-readings-place', 'Readings'],
    ['#/repairs', 'bt-repairs-place', 'Repairs'],
    ['#/repairs/T-0131', 'bt-repair-story', 'Repairs'],
    ['#/bands', 'bt-bands-place', 'Bands'],
    ['#/families', 'bt-families-place', 'Families'],
  ])('%s shows <%s>', async (hash, tag, name) => {
    const { app } = await showApp();
    await follow(hash, app);
    expect(all(app, 'main > *').map((place) => place.localName)).toEqual([tag]);
    expect(textOf(app, 'nav [aria-current=page]')).toBe(name);
  });

  test('goes back and forward, and names the page', async () => {
    const { app } = await showApp();
    await follow('#/repairs', app);
    await follow('#/repairs/T-0131', app);
    expect(document.title).toBe('T-0131 · Benchtally');
    history.back();
    await expect.poll(() => all(app, 'main > bt-repairs-place').length).toBe(1);
    expect(document.title).toBe('Repairs · Benchtally');
    history.forward();
    await expect.poll(() => all(app, 'main > bt-repair-story').length).toBe(1);
  });

  test('moves the focus to the place, from where the keyboard goes on', async () => {
    const { app } = await showApp();
    await userEvent.click(page.getByRole('link', { name: 'Bands' }));
    await placeShown(app);
    expect(app.shadowRoot?.activeElement?.localName).toBe('main');
  });
});

describe('cautions', () => {
  test.each([
    ['#/shift', 0],
    ['#/readings', 1],
    ['#/repairs', 1],
    ['#/bands', 1],
    ['#/families', 0],
  ])('stand at %s %i times', async (hash, times) => {
    history.replaceState(null, '', hash);
    const { app } = await showApp();
    expect(all(app, 'bt-caution-line')).toHaveLength(times);
  });

  test('are all reached by keyboard, and left by Escape', async () => {
    history.replaceState(null, '', '#/repairs');
    await showApp();
    const button = page.getByRole('button', { name: 'All cautions' });
    (button.element() as HTMLElement).focus();
    await userEvent.keyboard('{Enter}');
    await expect.element(page.getByRole('dialog')).toBeVisible();
    await expect.element(page.getByText(/IEC 62368-1/)).toBeVisible();
    expect(await violations(document.documentElement, true)).toEqual([]);
    await userEvent.keyboard('{Escape}');
    await expect.element(page.getByText(/IEC 62368-1/)).not.toBeVisible();
  });
});

describe('the sample', () => {
  test('gives way to an empty bench by one action', async () => {
    const { app, session } = await showApp();
    await page.getByRole('button', { name: 'Start an empty bench' }).click();
    await expect.poll(() => session.state.bench).toBe('own');
    await drawn(app);
    expect(textOf(app, '.bench p')).toBe('This bench · 0 readings · 0 repairs');
    await expect.element(page.getByRole('button', { name: 'Start an empty bench' })).not.toBeInTheDocument();
  });
});

test('the head counts what asks for an answer in Shift: files that wait and names that are not known', async () => {
  const { app, session } = await showApp({
    planFile: () => planOf({ questions: [DECIMAL] }),
    unknownNames: () => [{ kind: 'family', name: 'HERON 48', readings: 2, alike: ['HERON-48'] }],
  });
  await session.bringIn([new File(['x'], 'odd.csv')]);
  await drawn(app);
  expect(textOf(app, 'nav a[aria-current=page]')).toBe('Shift 2 ask for an answer');
  expect(await violations(document.documentElement, true)).toEqual([]);
});

describe('an import', () => {
  test('shows how far it has come and can be cancelled', async () => {
    const { app, session, client } = await showApp();
    client.answers.bringIn = (_args, { signal, onProgress }) =>
      new Promise((_resolve, reject) => {
        onProgress?.({ file: 'shift.csv', fileNumber: 2, files: 3, bytes: 50, totalBytes: 100, rows: 12_000 });
        signal?.addEventListener('abort', () => {
          reject(new CallCancelled('Stopped.'));
        });
      });
    const running = session.bringIn([new File(['x'], 'shift.csv')]);
    await drawn(app);
    expect(textOf(app, '.strip')).toBe('Reading shift.csv, file 2 of 3. 12,000 rows Cancel');
    const later = session.bringIn([new File(['y'], 'a.csv'), new File(['z'], 'b.csv')]);
    await drawn(app);
    expect(textOf(app, '.strip')).toBe('Reading shift.csv, file 2 of 3. 12,000 rows 2 more files after that Cancel');
    await expect.element(page.getByRole('progressbar')).toHaveAttribute('max', '100');
    expect(await violations(document.documentElement, true)).toEqual([]);
    client.answers.bringIn = () => nothingRead;
    await page.getByRole('button', { name: 'Cancel' }).click();
    await Promise.all([running, later]);
    await expect.element(page.getByRole('alert')).toHaveTextContent('The import was cancelled');
    await page.getByRole('button', { name: 'Understood' }).click();
    await expect.element(page.getByRole('alert')).not.toBeInTheDocument();
  });

  test('tells rows a second and what remains, once that can be told', async () => {
    const { app, session, client } = await showApp();
    let report: (rows: number) => void = () => undefined;
    let finish: (outcome: ImportOutcome) => void = () => undefined;
    client.answers.bringIn = (_args, { onProgress }) =>
      new Promise((resolve) => {
        finish = resolve;
        report = (rows) => {
          onProgress?.({ file: 'shift.csv', fileNumber: 1, files: 1, bytes: rows, totalBytes: 1e9, rows });
        };
        report(0);
      });
    const running = session.bringIn([new File(['x'], 'shift.csv')]);
    await drawn(app);
    const later = performance.now() + 600;
    const clock = vi.spyOn(performance, 'now').mockReturnValue(later);
    report(1000);
    clock.mockRestore();
    await drawn(app);
    expect(textOf(app, '.strip')).toMatch(/1,000 rows [\d,]+ rows a second about [\d,]+ min left of this file Cancel$/);
    finish(nothingRead);
    await running;
  });

  test('begins with files that are chosen, and shows what they held', async () => {
    history.replaceState(null, '', '#/bands');
    const { app, client } = await showApp();
    client.calls.length = 0;
    const button = all(app, 'bt-file-button')[0]!;
    const input = all(button, 'input[type=file]')[0]!;
    await userEvent.upload(input, new File(['time,reading\n'], 'shift.csv', { type: 'text/csv' }));
    await expect.poll(() => client.calls.filter(({ name }) => name === 'bringIn').length).toBe(1);
    expect(location.hash).toBe('#/shift');
  });
});

describe('files that are dragged over the page', () => {
  function drag(type: 'dragenter' | 'dragover' | 'drop', transfer: DataTransfer): DragEvent {
    const event = new DragEvent(type, { dataTransfer: transfer, bubbles: true, cancelable: true, composed: true });
    document.body.dispatchEvent(event);
    return event;
  }

  test('are announced by a sentence and brought in when let go', async () => {
    const { app, client } = await showApp({ bringIn: () => nothingRead });
    client.calls.length = 0;
    const transfer = new DataTransfer();
    transfer.items.add(new File(['a'], 'one.csv'));
    transfer.items.add(new File(['b'], 'two.csv'));
    expect(drag('dragenter', transfer).defaultPrevented).toBe(true);
    await drawn(app);
    await expect.element(page.getByText('Let go to bring these files in.')).toBeVisible();
    drag('drop', transfer);
    await drawn(app);
    await expect.element(page.getByText('Let go to bring these files in.')).not.toBeInTheDocument();
    const [files] = client.calls.find(({ name }) => name === 'bringIn')!.args as readonly [readonly File[]];
    expect(files.map(({ name }) => name)).toEqual(['one.csv', 'two.csv']);
  });

  test('go away again without a trace', async () => {
    const { app } = await showApp();
    const transfer = new DataTransfer();
    transfer.items.add(new File(['a'], 'one.csv'));
    drag('dragenter', transfer);
    window.dispatchEvent(new DragEvent('dragleave', { relatedTarget: null }));
    await drawn(app);
    expect(all(app, '.drop')).toHaveLength(0);
  });

  test('are told apart from text', async () => {
    const { app } = await showApp();
    const transfer = new DataTransfer();
    transfer.setData('text/plain', 'Q1');
    expect(drag('dragenter', transfer).defaultPrevented).toBe(false);
    await drawn(app);
    expect(all(app, '.drop')).toHaveLength(0);
  });
});

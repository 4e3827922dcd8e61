import fc from '../support/fast-check.ts';
import { describe, expect, test } from 'vitest';
import { applyChanges, reverseChanges } from '../../src/store/journal.ts';
import { EMPTY_STATE, type BenchState, type Edit } from '../../src/store/kept.ts';
import { createBench } from '../../src/worker/bench/bench.ts';
import { History } from '../../src/worker/bench/history.ts';
import { bandOf, repairOf } from '../store/fixtures.ts';
import { asking } from '../support/asking.ts';
import { sampleFile } from '../support/sample-file.ts';

const first = bandOf('bulk', 5);
const second = bandOf('bulk', 3);

describe('History', () => {
  /** A journal made by changing, taking back and doing again, beside the plain stacks of states that it must match. */
  function played(
    moves: readonly (number | 'undo' | 'redo')[],
  ): readonly [Edit[], BenchState, BenchState[], BenchState[]] {
    const journal: Edit[] = [];
    let state = EMPTY_STATE;
    const back: BenchState[] = [];
    const again: BenchState[] = [];
    for (const move of moves) {
      const step = journal.length + 1;
      if (typeof move === 'number') {
        const old = state.settings[0];
        const settings = { prices: [], fee: move };
        journal.push({ step, at: 0, changes: [{ part: 'settings', ...(old && { old }), new: settings }] });
        back.push(state);
        again.length = 0;
        state = { ...state, settings: [settings] };
        continue;
      }
      const history = new History(journal);
      const entry = history[move];
      const [from, to] = move === 'undo' ? [back, again] : [again, back];
      expect(entry === undefined).toBe(from.length === 0);
      if (entry === undefined) continue;
      const changes = move === 'undo' ? reverseChanges(entry.changes) : entry.changes;
      journal.push({ step, at: 0, ...(move === 'undo' ? { undoes: entry.step } : { redoes: entry.step }), changes });
      to.push(state);
      state = from.pop()!;
      expect(
        applyChanges(
          EMPTY_STATE,
          journal.flatMap((edit) => edit.changes),
        ),
      ).toEqual(state);
    }
    return [journal, state, back, again];
  }

  test('read anew at any moment, takes back and does again what plain stacks of states would', () => {
    const move = fc.oneof(fc.nat(50), fc.constantFrom('undo' as const, 'redo' as const));
    fc.assert(
      fc.property(fc.array(move, { maxLength: 30 }), (moves) => {
        const [journal, , back, again] = played(moves);
        const history = new History(journal);
        expect([history.undo === undefined, history.redo === undefined]).toEqual([
          back.length === 0,
          again.length === 0,
        ]);
      }),
    );
  });

  test('takes nothing back past what a file brought', () => {
    const byHand: Edit = { step: 1, at: 0, changes: [{ part: 'bands', new: first }] };
    const brought: Edit = { step: 2, at: 0, file: 'bands.csv', changes: [{ part: 'bands', old: first, new: second }] };
    expect(new History([byHand]).undo).toEqual(byHand);
    expect(new History([byHand, brought]).undo).toBeUndefined();
    expect(new History([byHand, { step: 2, at: 0, file: 'x.csv', changes: [{ part: 'edits' }] }]).undo).toEqual(byHand);
  });

  test('knows which of two tabs’ changes an undo took back, whatever came between', () => {
    const here: Edit = { step: 1, at: 0, changes: [{ part: 'bands', new: first }] };
    const there: Edit = { step: 2, at: 0, changes: [{ part: 'repairs', new: repairOf('T-1') }] };
    const undo: Edit = { step: 3, at: 0, undoes: 1, changes: [{ part: 'bands', old: first }] };
    const history = new History([here, there, undo]);
    expect([history.undo, history.redo]).toEqual([there, here]);
  });
});

describe('the history of a bench', () => {
  test('says who changed what and when, latest first, page by page and by kind', async () => {
    const ask = asking(createBench());
    await ask('changeSettings', { prices: [], technician: 'A. Tern' });
    await ask('setBands', [first]);
    await ask('setBands', [second]);
    await ask('setRepair', repairOf('T-1'));
    const { total, lines } = await ask('history', undefined, 0, 2);
    expect(total).toBe(4);
    expect(lines).toMatchObject([
      { does: 'changed', who: 'A. Tern', changes: [{ part: 'repairs', new: repairOf('T-1') }], more: 0 },
      { does: 'changed', who: 'A. Tern', changes: [{ part: 'bands', old: first, new: second }] },
    ]);
    expect(lines[0]!.at).toBeGreaterThanOrEqual(lines[1]!.at);
    expect((await ask('history', undefined, 2, 9)).lines).toHaveLength(2);
    expect((await ask('history', 'bands', 0, 9)).total).toBe(2);
    expect((await ask('history', 'meters', 0, 9)).lines).toEqual([]);
  });

  test('of one repair has its changes and the lines that were let pass, with the reason', async () => {
    const ask = asking(createBench());
    await ask('setRepair', repairOf('T-1'));
    await ask('setRepair', repairOf('T-2'));
    await ask('overruleLine', 'T-1', 'fuse', ' measured at the customer ');
    const lines = await ask('historyOf', { kind: 'repair', repair: 'T-1' });
    expect(lines.map(({ why }) => why)).toEqual(['measured at the customer', undefined]);
    expect(lines.flatMap(({ changes }) => changes.map(({ part }) => part))).toEqual(['overrules', 'repairs']);
  });

  test('of one band leaves the bands of other places out', async () => {
    const ask = asking(createBench());
    await ask('setBands', [first, bandOf('12V main', 5)]);
    await ask('setBands', [second]);
    const lines = await ask('historyOf', { kind: 'band', band: first });
    expect(lines.map(({ changes }) => changes)).toEqual([
      [{ part: 'bands', old: first, new: second }],
      [{ part: 'bands', new: first }],
    ]);
  });

  test('says what undo would take back and redo do again', async () => {
    const ask = asking(createBench());
    await ask('setBands', [first]);
    await ask('undo');
    expect(await ask('undoable')).toMatchObject({ redo: { changes: [{ part: 'bands', new: first }] } });
    expect((await ask('bands')).bands).toEqual([]);
    await ask('redo');
    expect((await ask('bands')).bands.map(({ band }) => band)).toEqual([first]);
    expect((await ask('history', undefined, 0, 9)).lines.map(({ does }) => does)).toEqual([
      'done again',
      'taken back',
      'changed',
    ]);
    expect(await ask('redo')).toBeUndefined();
  });

  test('takes the reason of a change afterwards, and takes it away again', async () => {
    const ask = asking(createBench());
    await ask('setBands', [first]);
    const reason = async () => (await ask('history', undefined, 0, 1)).lines[0]!.why;
    const { step } = (await ask('history', undefined, 0, 1)).lines[0]!;
    await ask('explain', step!, ' marked on the board ');
    expect(await reason()).toBe('marked on the board');
    await ask('explain', step!, '');
    expect(await reason()).toBeUndefined();
  });

  test('names the file that brought a table, and shows a few of its many items', async () => {
    const ask = asking(createBench());
    await ask('bringIn', [sampleFile('repairs.csv')]);
    const { lines } = await ask('history', 'repairs', 0, 9);
    expect(lines).toMatchObject([{ does: 'brought', file: 'repairs.csv', more: 145 }]);
    expect(lines[0]!.changes).toHaveLength(5);
    expect(await ask('undo')).toBeUndefined();
  });
});

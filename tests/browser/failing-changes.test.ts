import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import type { ChangingCall } from '../../src/session/changing-calls.ts';
import '../../src/ui/grid/readings-grid.ts';
import '../../src/ui/panels/bands-place.ts';
import '../../src/ui/panels/names-list.ts';
import '../../src/ui/panels/readings-views.ts';
import '../../src/ui/panels/repair-form.ts';
import '../../src/ui/panels/repair-story.ts';
import '../../src/ui/panels/set-aside-list.ts';
import '../../src/ui/panels/shift-history.ts';
import '../../src/ui/panels/shift-imports.ts';
import { bandsHash, parseRoute } from '../../src/ui/route.ts';
import type { FakeAnswers } from '../session/fake-client.ts';
import { benchSession, FAILED, SMALL_LOG } from '../ui/grid/bench-session.ts';
import { lines, openSession, shift } from './app-bench.ts';
import { all, drawn, show } from './app-page.ts';
import { check, openBands } from './bands-bench.ts';
import { openRepairs } from './repairs-bench.ts';

/** What one action of the page asks of the bench, made to fail once; gives what must be so after it. */
type Case = (fail: () => never) => Promise<(() => Promise<unknown>) | undefined>;

const click = (name: string) => page.getByRole('button', { name, exact: true }).first().click();
const bandsPlace = async (route: string, own: FakeAnswers) => {
  const { session } = await openBands(own);
  await drawn(await show('bt-bands-place', { session, route: parseRoute(route) }));
};
const historyOf = async (own: FakeAnswers) => {
  const line = { step: 3, at: 0, does: 'changed', changes: [{ part: 'repairs', new: lines[0]!.repair }], more: 0 } as const; // prettier-ignore
  const { session } = await openSession({
    history: () => ({ total: 1, lines: [line] }),
    undoable: () => ({ undo: line, redo: line }),
    settings: () => ({ prices: [], technician: 'A. Tern' }),
    ...own,
  });
  await drawn(await show('bt-shift-history', { session }));
};
const views = async (own: FakeAnswers) => {
  const { session } = await openSession({ views: () => [{ name: 'lows', address: '#/readings' }], ...own });
  await drawn(await show('bt-readings-views', { session, address: '#/readings?sort=time' }));
};

/** A change in the grid, after what makes it possible; the readings must be as they were before it. */
const inGrid =
  (name: ChangingCall, keys: string, { at = 'reading', before = '' } = {}): Case =>
  async () => {
    const bench = await benchSession(SMALL_LOG);
    const grid = await show('bt-readings-grid', { session: bench.session });
    grid.style.height = '640px';
    await expect.poll(() => all(grid, '.row')).toHaveLength(9);
    const press = async (pressed: string): Promise<void> => {
      await userEvent.click(all(grid, `[aria-rowindex="2"] > [data-column=${at}]`)[0]!);
      await userEvent.keyboard(pressed);
      await drawn(grid);
    };
    if (before !== '') {
      await press(before);
      await expect.poll(async () => (await bench.ask('editsSoFar')).steps).toBe(1);
    }
    const rows = () => bench.ask('window', { filters: [], sort: [] }, 0, 100);
    const kept = await rows();
    bench.failOnce(name);
    if (name === 'explainEdit') {
      await userEvent.fill(all(grid, '.why')[0]!, 'misread');
      await userEvent.tab();
    } else if (name === 'returnReadings') await click('bring the deleted back');
    else await press(keys);
    if (name === 'addReadings') await userEvent.keyboard('5 V{Enter}');
    return async () => {
      expect(await rows()).toEqual(kept);
    };
  };

/** Every call that changes the bench, by the control that makes it. */
const CASES: Readonly<Record<ChangingCall, Case>> = {
  takeBack: async (takeBack) => {
    const { session } = await openSession({ takeBack });
    await show('bt-shift-imports', { session, imports: shift.imports });
    await click('Take back shift.csv');
    await click('Take it back');
    return () => expect.element(page.getByRole('button', { name: 'Take it back' })).toBeVisible();
  },
  mendRow: async (mendRow) => {
    const { session } = await openSession({ mendRow });
    await show('bt-set-aside-list', { session, rows: shift.setAside });
    await click('Mend line 1204 of shift.csv');
    await userEvent.fill(page.getByLabelText('Content of line 1204 of shift.csv'), '12.3 V');
    await click('Admit line 1204 of shift.csv');
    return () => expect.element(page.getByLabelText('Content of line 1204 of shift.csv')).toHaveValue('12.3 V');
  },
  mendRows: async (mendRows) => {
    const rows = [1, 2].map((line) => ({
      ...shift.setAside[0]!,
      line,
      reason: '“12” in column “reading” has no mode.',
    }));
    const outcome = { admitted: 2, left: 0, readings: [] };
    const { session } = await openSession({ mendRows, tryMend: () => outcome });
    await show('bt-set-aside-list', { session, rows });
    await page.getByRole('button', { name: /^Mend all 2 rows/ }).click();
    await userEvent.selectOptions(page.getByRole('combobox', { name: 'mode' }), 'DC volts');
    await click('Admit 2 rows');
    return () => expect.element(page.getByRole('combobox', { name: 'mode' })).toHaveValue('DC volts');
  },
  letGo: async (letGo) => {
    const { session } = await openSession({ letGo });
    await show('bt-set-aside-list', { session, rows: shift.setAside });
    await click('Let go line 1204 of shift.csv');
    return undefined;
  },
  answerNames: async (answerNames) => {
    const { session } = await openSession({ answerNames });
    await show('bt-names-list', { session, names: [{ kind: 'meter', name: 'M9', readings: 40, alike: [] }] });
    await click('a new meter: M9');
    return () => expect.element(page.getByRole('button', { name: 'a new meter: M9' })).toBeVisible();
  },
  setBands: async (setBands) => {
    await bandsPlace(bandsHash('check', check), { setBands });
    await userEvent.fill(page.getByLabelText('± %'), '3');
    const why = page.getByLabelText('Why is it right that known bad boards pass?');
    await expect.poll(() => why.query()).not.toBeNull();
    await userEvent.fill(why, 'noted');
    await click('Accept');
    return () => expect.element(page.getByLabelText('± %')).toHaveValue('3');
  },
  removeBand: async (removeBand) => {
    await bandsPlace(bandsHash('check', check), { removeBand });
    await click('Remove the present band');
    return () => expect.element(page.getByLabelText('± %')).toHaveValue('5');
  },
  setFamily: async (setFamily) => {
    await bandsPlace(bandsHash('family'), { setFamily });
    await userEvent.fill(page.getByLabelText('name', { exact: true }), 'WREN-24');
    await click('Save the family');
    return () => expect.element(page.getByLabelText('name', { exact: true })).toHaveValue('WREN-24');
  },
  setMeters: async (setMeters) => {
    await bandsPlace(bandsHash('meters'), { setMeters });
    await click('Edit M1');
    await userEvent.fill(page.getByLabelText('+ counts, line 1'), '7');
    await click('Save the meter');
    return () => expect.element(page.getByLabelText('+ counts, line 1')).toHaveValue('7');
  },
  overruleLine: async (overruleLine) => {
    const { session } = await openRepairs({ overruleLine });
    await drawn(await show('bt-repair-story', { session, repair: 'T-0131' }));
    await click('Overrule: The fuse rule holds.');
    await userEvent.fill(page.getByLabelText('Let it pass, because'), 'seen by eye');
    await userEvent.keyboard('{Enter}');
    return () => expect.element(page.getByLabelText('Let it pass, because')).toHaveValue('seen by eye');
  },
  setRepair: async (setRepair) => {
    const { session } = await openRepairs({ repairFault: () => undefined, setRepair });
    await show('bt-repair-form', { session, repair: lines[0]!.repair });
    await userEvent.fill(page.getByLabelText('Replaced parts'), 'D3');
    await click('Keep');
    return () => expect.element(page.getByLabelText('Replaced parts')).toHaveValue('D3');
  },
  changeSettings: async (changeSettings) => {
    await historyOf({ changeSettings });
    await userEvent.fill(page.getByLabelText('Who works here?'), 'B. Dunlin');
    await click('Keep the name');
    return () => expect.element(page.getByLabelText('Who works here?')).toHaveValue('B. Dunlin');
  },
  setView: async (setView) => {
    await views({ setView });
    await userEvent.fill(page.getByRole('textbox').first(), 'highs');
    await userEvent.keyboard('{Enter}');
    return () => expect.element(page.getByRole('textbox').first()).toHaveValue('highs');
  },
  removeView: async (removeView) => {
    await views({ removeView });
    await click('let go of lows');
    return () => expect.element(page.getByRole('link', { name: 'lows' })).toBeVisible();
  },
  undo: async (undo) => {
    await historyOf({ undo });
    await page.getByRole('button', { name: /^Take back/ }).click();
    return undefined;
  },
  redo: async (redo) => {
    await historyOf({ redo });
    await page.getByRole('button', { name: /^Do again/ }).click();
    return undefined;
  },
  explain: async (explain) => {
    await historyOf({ explain });
    await click('say why');
    await userEvent.fill(page.getByLabelText('why'), 'typed wrongly');
    await click('Keep');
    return () => expect.element(page.getByLabelText('why')).toHaveValue('typed wrongly');
  },
  editReadings: inGrid('editReadings', '7.02 V{Enter}'),
  restoreReadings: inGrid('restoreReadings', '{Control>}{Backspace}{/Control}', { before: '7.02 V{Enter}' }),
  deleteReadings: inGrid('deleteReadings', '{Shift>}{Delete}{/Shift}'),
  returnReadings: inGrid('returnReadings', '', { before: '{Shift>}{Delete}{/Shift}' }),
  undoEdit: inGrid('undoEdit', '{Control>}z{/Control}', { before: '7.02 V{Enter}' }),
  redoEdit: inGrid('redoEdit', '{Control>}y{/Control}', { before: '7.02 V{Enter}' }),
  addReadings: inGrid('addReadings', '{Insert}'),
  copyReadings: inGrid('copyReadings', '{Shift>}{Control>}d{/Control}{/Shift}'),
  explainEdit: inGrid('explainEdit', '', { before: '7.02 V{Enter}' }),
};

let unsaid: unknown[];
const note = ({ reason }: PromiseRejectionEvent): void => {
  unsaid.push(reason);
};

beforeEach(() => {
  unsaid = [];
  window.addEventListener('unhandledrejection', note);
});
afterEach(() => {
  window.removeEventListener('unhandledrejection', note);
  history.replaceState(null, '', '#/shift');
});

describe('a change that cannot be made is said, and all is as it was before it', () => {
  test.each(Object.entries(CASES))('%s', async (_, act) => {
    const wrong = await act(() => {
      throw new Error(FAILED);
    });
    await expect.element(page.getByText(FAILED).first()).toBeInTheDocument();
    await wrong?.();
    expect(unsaid).toEqual([]);
  });
});

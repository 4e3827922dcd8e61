import type { Change, Edit, StatePart } from '../../store/kept.ts';
import type { HistoryKind, HistoryLine, HistorySubject } from '../contract/history.ts';
import type { BenchData } from './bench-data.ts';
import type { History } from './history.ts';
import { noteOf } from './reading-edits-steps.ts';

/** Items of a change that are told one by one. */
const MOST_CHANGES = 5;

/** The kind of each part; earlier bands only follow from bands, and maps and edits are told of elsewhere. */
const KINDS: Readonly<Partial<Record<StatePart, HistoryKind>>> = {
  bands: 'bands',
  repairs: 'repairs',
  overrules: 'repairs',
  families: 'families',
  meters: 'meters',
  settings: 'settings',
  views: 'views',
  names: 'names',
};

/** All changes, latest first. @param kind - of this kind alone */
export function historyLines(
  history: History,
  data: BenchData,
  kind: HistoryKind | undefined,
  first: number,
  count: number,
): { readonly total: number; readonly lines: readonly HistoryLine[] } {
  const isWanted = ({ part }: Change): boolean => KINDS[part] !== undefined && (kind ?? KINDS[part]) === KINDS[part];
  const entries = history.entries.filter(({ changes }) => changes.some(isWanted));
  const edits = kind === undefined || kind === 'readings' ? data.edits.steps : [];
  const all = [
    ...entries.map((edit) => ({ at: edit.at, line: () => lineOf(edit, isWanted) })),
    ...edits.map((step) => ({ at: step.when, line: () => readingsLine(data, step) })),
  ]
    .reverse()
    .sort((a, b) => b.at - a.at);
  return { total: all.length, lines: all.slice(first, first + count).map(({ line }) => line()) };
}

/** All changes of one thing, latest first. */
export function linesOf(history: History, subject: HistorySubject): readonly HistoryLine[] {
  const isWanted = (change: Change): boolean => isOf(change, subject);
  return history.entries
    .filter(({ changes }) => changes.some(isWanted))
    .map((edit) => lineOf(edit, isWanted))
    .reverse();
}

/** An entry of the journal as it is shown. */
export function lineOf(
  { step, at, who, why, file, undoes, redoes, changes }: Edit,
  isWanted: (change: Change) => boolean = ({ part }) => KINDS[part] !== undefined,
): HistoryLine {
  const wanted = changes.filter(isWanted);
  return {
    step,
    at,
    ...(who !== undefined && { who }),
    ...(why !== undefined && { why }),
    ...(file !== undefined && { file }),
    does:
      undoes !== undefined
        ? 'taken back'
        : redoes !== undefined
          ? 'done again'
          : file === undefined
            ? 'changed'
            : 'brought',
    changes: wanted.slice(0, MOST_CHANGES),
    more: Math.max(0, wanted.length - MOST_CHANGES),
  };
}

function readingsLine(data: BenchData, step: BenchData['edits']['steps'][number]): HistoryLine {
  const { when: at, who, why } = step;
  const by = { ...(who !== undefined && { who }), ...(why !== undefined && { why }) };
  return { at, ...by, does: 'changed', changes: [], more: 0, readings: noteOf(data, step) };
}

function isOf({ part, old, new: added }: Change, subject: HistorySubject): boolean {
  const item = added ?? old ?? {};
  const has = (fields: Readonly<Record<string, string | undefined>>): boolean =>
    Object.entries(fields).every(([name, value]) => Reflect.get(item, name) === value);
  switch (subject.kind) {
    case 'repair':
      return part === 'repairs' ? has({ id: subject.repair }) : part === 'overrules' && has({ repair: subject.repair });
    case 'family':
      return part === 'families' && has({ name: subject.family });
    case 'meter':
      return part === 'meters' && has({ name: subject.meter });
    case 'settings':
      return part === 'settings';
    case 'band': {
      const { family, point, mode, stage } = subject.band;
      return part === 'bands' && has({ family, point, mode, stage });
    }
  }
}

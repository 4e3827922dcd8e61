import type { ReactiveController } from 'lit';
import { errorText } from '../../domain/error-text.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { CellText, EditAnswer, EditField, EditsSoFar, GridLine, ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from './answer-controller.ts';
import { countOf } from '../words.ts';
import type { ShownColumn } from '../grid/column-layout.ts';
import { editText, filledCells, filledDown } from '../grid/edit-text.ts';
import { stepText } from '../grid/edit-words.ts';
import type { GridKey, GridRange } from '../grid/grid-cursor.ts';
import { isGroup } from '../grid/group-text.ts';
import type { GridHost } from './grid-edit-part.ts';
import { GridNewRowController } from './grid-new-row-controller.ts';
import { GridPasteController } from './grid-paste-controller.ts';

/** The cell that is being edited. */
export interface CellEditor {
  readonly line: number;
  readonly column: number;
  readonly field: EditField;
  readonly text: string;
  /** Why the text cannot be kept, as sentences. */
  readonly fault?: string;
}

/** What the grid holds at the moment. */
export interface Edited {
  readonly session: Session;
  readonly query: ReadingsQuery;
  readonly range: GridRange;
  readonly lines: number;
  readonly columns: readonly ShownColumn[];
}

export interface GridEditOptions {
  /** Undefined while there is nothing to edit. */
  readonly edited: () => Edited | undefined;
  readonly cursor: () => { readonly row: number; readonly column: number };
  readonly row: (line: number) => GridLine | undefined;
  readonly say: (text: string) => void;
  /** Moves the focus to the current cell, `by` lines further down. */
  readonly focusCell: (by: number) => void;
}

type Call = 'restoreReadings' | 'deleteReadings' | 'copyReadings' | 'returnReadings' | 'undoEdit' | 'redoEdit';

/** Edits readings in the cells of a grid, adds, pastes and deletes them, and takes all that back. */
export class GridEditController implements ReactiveController {
  editor: CellEditor | undefined;
  readonly pasting: GridPasteController;
  readonly adding: GridNewRowController;
  /** Whether copies stand under a line of headers. */
  copiesHeaders = true;
  /** Grows with each change made here. */
  edition = 0;
  private readonly journal: AnswerController<EditsSoFar>;
  private readonly host: GridHost;
  private readonly options: GridEditOptions;

  constructor(host: GridHost, options: GridEditOptions) {
    this.host = host;
    this.options = options;
    const changed = (): void => {
      this.edition += 1;
      host.requestUpdate();
    };
    this.pasting = new GridPasteController(host, options, changed);
    this.adding = new GridNewRowController(host, options, changed);
    this.journal = new AnswerController<EditsSoFar>(host, () => this.journalQuestion());
    host.addController(this);
  }

  hostDisconnected(): void {
    this.editor = this.pasting.preview = this.adding.row = undefined;
  }

  /** What was edited by hand so far, by this grid and before it, once that is known. */
  get soFar(): EditsSoFar | undefined {
    const { answer } = this.journal;
    return answer.status === 'failed' ? undefined : answer.value;
  }

  /** Begins to edit the current cell, with a text in place of its own where one is given. @returns whether it can be edited */
  start(typed?: string): boolean {
    const { row: line, column } = this.options.cursor();
    const edited = this.options.edited();
    const field = edited?.columns[column]?.edit;
    const row = this.options.row(line);
    if (edited === undefined || field === undefined || row === undefined || isGroup(row)) return false;
    const text = typed ?? editText(field, row, edited.session.state.decimalMark);
    this.editor = { line, column, field, text };
    this.host.requestUpdate();
    return true;
  }

  cancel(): void {
    this.editor = undefined;
    this.options.focusCell(0);
  }

  /** Keeps what was typed, or says beside the cell why it cannot be kept. @param fills - whether it is for the whole selection */
  async keep(text: string, fills: boolean, by = 0): Promise<void> {
    const { editor } = this;
    const edited = this.options.edited();
    if (editor === undefined || edited === undefined) return;
    const { line, column, field } = editor;
    const whole = { ...edited.range, firstColumn: column, lastColumn: column };
    const cells = fills ? filledCells(text, whole, edited.columns) : [{ first: line, last: line, field, text }];
    const answer = await this.apply(edited, cells);
    if (this.editor !== editor) return;
    if (typeof answer === 'string' || answer.faults[0] !== undefined) {
      const fault = typeof answer === 'string' ? answer : (answer.faults[0]?.fault ?? '');
      this.editor = { ...editor, text, fault };
    } else {
      this.editor = undefined;
      this.options.focusCell(by);
    }
    this.host.requestUpdate();
  }

  /**
   * What a key does apart from moving: to the journal, and to the selection where it is of readings.
   * @returns whether it does anything
   */
  press(event: GridKey, isHeader: boolean): boolean {
    const command = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    if (command && key === 'z') return this.run(event.shiftKey ? 'redoEdit' : 'undoEdit');
    if (command && key === 'y') return this.run('redoEdit');
    if (!command && key === 'insert') return this.adding.begin();
    if (isHeader) return false;
    if (command && key === 'backspace') return this.run('restoreReadings');
    if (command && key === 'd') return event.shiftKey ? this.run('copyReadings') : this.fillDown();
    if (!command && event.shiftKey && key === 'delete') return this.run('deleteReadings');
    if (key === 'f2') return this.start();
    const isLetter = event.key.length === 1 && event.key !== ' ' && !command && !event.altKey;
    return isLetter && this.start(event.key);
  }

  /** Does something to all that is selected or to the journal; what came of it is said. */
  run(call: Call): true {
    void this.change(call);
    return true;
  }

  /** Keeps why the last edit was made. */
  async explain(why: string): Promise<void> {
    try {
      await this.options.edited()?.session.ask('explainEdit', [why]);
      this.edition += 1;
      this.options.say(why.trim() === '' ? 'No reason is kept.' : 'The reason is kept with the edit.');
    } catch (error) {
      this.options.say(`The reason was not kept. ${errorText(error)}`);
    }
    this.host.requestUpdate();
  }

  /** Gives all rows of the selection what its first row holds. */
  private fillDown(): true {
    const edited = this.options.edited();
    const first = edited && this.options.row(edited.range.firstRow);
    if (edited && first && !isGroup(first) && edited.range.lastRow > edited.range.firstRow)
      void this.fill(edited, filledDown(first, edited.range, edited.columns, edited.session.state.decimalMark));
    else
      this.options.say('Nothing was filled: select several rows, of which the first holds what the others shall hold.');
    return true;
  }

  private async fill(edited: Edited, cells: readonly CellText[]): Promise<void> {
    const answer = await this.apply(edited, cells);
    const fault = typeof answer === 'string' ? answer : answer.faults[0]?.fault;
    if (fault !== undefined) this.options.say(`Nothing was filled. ${fault}`);
    else if (typeof answer === 'object' && answer.changed === 0) this.options.say('All of this is so already.');
  }

  private async change(call: Call): Promise<void> {
    const edited = this.options.edited();
    if (edited === undefined) return;
    const { session, query, range } = edited;
    const mark = session.state.decimalMark;
    const { firstRow, lastRow } = range;
    const before = this.soFar;
    try {
      const isOfRows = call === 'restoreReadings' || call === 'deleteReadings' || call === 'copyReadings';
      const after = await (isOfRows ? session.ask(call, [query, firstRow, lastRow]) : session.ask(call, []));
      this.edition += 1;
      this.options.say(changeSentence(call, before, after, mark));
    } catch (error) {
      this.options.say(`Nothing was changed. ${errorText(error)}`);
    }
    this.options.focusCell(0);
  }

  private async apply({ session, query }: Edited, cells: readonly CellText[]): Promise<EditAnswer | string> {
    const { decimalMark } = session.state;
    try {
      const answer = await session.ask('editReadings', [query, cells, decimalMark]);
      if (answer.changed > 0) {
        this.edition += 1;
        this.options.say(`${countOf(answer.changed, 'cell', decimalMark)} changed.`);
      }
      return answer;
    } catch (error) {
      return errorText(error);
    }
  }

  private journalQuestion() {
    const { session } = this.options.edited() ?? {};
    if (session === undefined) return undefined;
    return {
      key: `${session.state.revision} ${this.edition}`,
      ask: (signal: AbortSignal) => session.ask('editsSoFar', [], signal),
      keepsLast: true,
    };
  }
}

/** What came of a change, by what undo and redo would take then. */
function changeSentence(call: Call, before: EditsSoFar | undefined, after: EditsSoFar, mark: DecimalMark): string {
  if (call === 'undoEdit' || call === 'redoEdit') {
    const step = call === 'undoEdit' ? after.next : after.last;
    if (step === undefined || before?.undone === after.undone) return call === 'undoEdit' ? 'There is no edit to take back.' : 'There is no edit to do again.'; // prettier-ignore
    return `${call === 'undoEdit' ? 'Taken back' : 'Done again'}: ${stepText(step, mark)}.`;
  }
  const { last } = after;
  if (last === undefined || after.steps === before?.steps) return 'Nothing was changed: all of this is so already.';
  const text = stepText(last, mark);
  return call === 'restoreReadings' ? `Original values are back: ${text}.` : `${text}.`;
}

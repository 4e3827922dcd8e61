import type { ReactiveController, ReactiveControllerHost } from 'lit';
import type { CellText, EditAnswer, EditField, EditsSoFar, GridLine, ReadingsQuery } from '../../session/answers.ts';
import type { Session } from '../../session/session.ts';
import { AnswerController } from './answer-controller.ts';
import { countOf } from '../words.ts';
import type { ShownColumn } from '../grid/column-layout.ts';
import { editText, filledCells, pastedCells } from '../grid/edit-text.ts';
import type { GridKey, GridRange } from '../grid/grid-cursor.ts';
import { isGroup } from '../grid/group-text.ts';

/** The cell that is being edited. */
export interface CellEditor {
  readonly line: number;
  readonly column: number;
  readonly field: EditField;
  readonly text: string;
  /** Why the text cannot be kept, as sentences. */
  readonly fault?: string;
}

/** A block that waits to be pasted: what it would change. */
export interface PastePreview {
  readonly cells: readonly CellText[];
  readonly answer: EditAnswer;
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

type Call = 'restoreReadings' | 'deleteReadings' | 'returnReadings' | 'undoEdit' | 'redoEdit';

/** Edits readings in the cells of a grid, pastes and deletes them, and takes all that back. */
export class GridEditController implements ReactiveController {
  editor: CellEditor | undefined;
  preview: PastePreview | undefined;
  /** Grows with each change made here. */
  edition = 0;
  private readonly journal: AnswerController<EditsSoFar>;
  private readonly host: ReactiveControllerHost;
  private readonly options: GridEditOptions;

  constructor(host: ReactiveControllerHost, options: GridEditOptions) {
    this.host = host;
    this.options = options;
    this.journal = new AnswerController<EditsSoFar>(host, () => this.journalQuestion());
    host.addController(this);
  }

  hostDisconnected(): void {
    this.editor = this.preview = undefined;
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

  /** What a key does to the selection apart from moving: undo, redo, delete, restore. @returns whether it does anything */
  press(event: GridKey): boolean {
    const command = event.ctrlKey || event.metaKey;
    const key = event.key.toLowerCase();
    if (command && key === 'z') return this.run(event.shiftKey ? 'redoEdit' : 'undoEdit');
    if (command && key === 'y') return this.run('redoEdit');
    if (command && key === 'backspace') return this.run('restoreReadings');
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

  /** Shows what a block would change before it does. */
  async paste(text: string): Promise<void> {
    const edited = this.options.edited();
    if (edited === undefined || text === '') return;
    const { session, query, range, columns, lines } = edited;
    const cells = pastedCells(text, range, columns, lines);
    try {
      const answer = await session.ask('tryEdit', [query, cells, session.state.decimalMark]);
      this.preview = { cells, answer };
    } catch (error) {
      this.options.say(`Nothing was pasted. ${sentence(error)}`);
    }
    this.host.requestUpdate();
  }

  /** Ends the preview, and changes what it showed where that is wanted. */
  async settle(isWanted: boolean): Promise<void> {
    const { preview } = this;
    const edited = this.options.edited();
    this.preview = undefined;
    if (isWanted && preview !== undefined && edited !== undefined) await this.apply(edited, preview.cells);
    this.options.focusCell(0);
    this.host.requestUpdate();
  }

  private async change(call: Call): Promise<void> {
    const edited = this.options.edited();
    if (edited === undefined) return;
    const { session, query, range } = edited;
    const { firstRow, lastRow } = range;
    try {
      const isOfRows = call === 'restoreReadings' || call === 'deleteReadings';
      await (isOfRows ? session.ask(call, [query, firstRow, lastRow]) : session.ask(call, []));
      this.edition += 1;
      const done = { restoreReadings: 'Original values are back.', deleteReadings: 'Deleted.', returnReadings: 'Deleted readings are back.', undoEdit: 'Taken back.', redoEdit: 'Done again.' }[call]; // prettier-ignore
      this.options.say(done);
    } catch (error) {
      this.options.say(`Nothing was changed. ${sentence(error)}`);
    }
    this.host.requestUpdate();
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
      return sentence(error);
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

function sentence(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

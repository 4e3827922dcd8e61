import type { EditField, NewRows } from '../../session/answers.ts';
import { errorText } from '../../domain/error-text.ts';
import { EDIT_FIELDS } from '../../domain/reading-edit.ts';
import { editText } from '../grid/edit-text.ts';
import { readingSentence } from '../grid/edit-words.ts';
import { isGroup } from '../grid/group-text.ts';
import { GridEditPart } from './grid-edit-part.ts';

/** A reading that is being written by hand. */
export interface NewRow {
  readonly texts: Readonly<Record<EditField, string>>;
  /** What is wrong with each field, and with the whole under an empty name. */
  readonly faults: Readonly<Partial<Record<EditField | '', string>>>;
}

/** Adds readings one by one, each beside the current one, from which it takes what mostly stays the same. */
export class GridNewRowController extends GridEditPart {
  row: NewRow | undefined;

  /** Opens the line of fields with the focus on the reading. */
  begin(): true {
    const edited = this.options.edited();
    const like = this.options.row(this.options.cursor().row);
    const mark = edited?.session.state.decimalMark ?? '.';
    const textOf = (field: EditField): string =>
      like === undefined || isGroup(like) || field === 'reading' ? '' : editText(field, like, mark);
    const texts = Object.fromEntries(EDIT_FIELDS.map((field) => [field, textOf(field)])) as Record<EditField, string>;
    this.row = { texts: { ...texts, time: localNow() }, faults: {} };
    void this.focusReading();
    return true;
  }

  end(): void {
    this.row = undefined;
    this.options.focusCell(0);
  }

  /** Takes what is written in a field so far. */
  write(field: EditField, text: string): void {
    if (this.row) this.row = { ...this.row, texts: { ...this.row.texts, [field]: text } };
  }

  /** Adds what was written, or says beside each field why it cannot be kept. */
  async add(): Promise<void> {
    const edited = this.options.edited();
    const texts = this.row?.texts;
    if (edited === undefined || texts === undefined) return;
    const { session } = edited;
    const mark = session.state.decimalMark;
    const rows: NewRows = { rows: [EDIT_FIELDS, EDIT_FIELDS.map((field) => texts[field])], columns: [] };
    let faults: NewRow['faults'];
    try {
      const tried = await session.ask('tryAdd', [rows, mark]);
      const [doubt] = tried.doubts;
      faults = Object.fromEntries(tried.faults.map(({ column, fault }) => [column, fault]));
      if (doubt !== undefined) faults = { ...faults, reading: doubt };
      if (texts.reading.trim() === '') faults = { ...faults, reading: 'Write what the meter showed.' };
      const [reading] = tried.examples;
      if (Object.keys(faults).length === 0 && reading !== undefined) {
        await session.ask('addReadings', [rows, mark, true]);
        this.options.say(`Added: ${readingSentence(reading, mark)}.`);
        this.changed();
        this.row &&= { texts: { ...texts, time: localNow(), reading: '' }, faults };
      } else if (Object.keys(faults).length === 0) faults = { '': 'This is no reading: fill the fields in.' };
    } catch (error) {
      faults = { '': errorText(error) };
    }
    if (Object.keys(faults).length > 0) this.row &&= { texts, faults };
    await this.focusReading();
  }

  /** The reading is what is written next, or the first field that is wrong. */
  private async focusReading(): Promise<void> {
    this.host.requestUpdate();
    await this.host.updateComplete;
    const form = this.host.renderRoot.querySelector('.new-row');
    const field = form?.querySelector<HTMLElement>('[aria-invalid=true]') ?? form?.querySelector<HTMLElement>('[name=reading]'); // prettier-ignore
    field?.focus();
  }
}

/** The time of this place as it is written in a cell. */
function localNow(): string {
  const now = new Date();
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 19).replace('T', ' ');
}

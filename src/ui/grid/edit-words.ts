import type { DecimalMark } from '../../domain/quantity.ts';
import type { Reading } from '../../domain/reading.ts';
import type { AddAnswer, StepNote } from '../../session/answers.ts';
import { countOf, listText, minuteText, momentText } from '../words.ts';
import { readingLine } from './reading-text.ts';

/** What an edit did, as in `3 readings deleted`; several deeds are listed. */
export function stepText({ edited, deleted, returned, added }: StepNote, mark: DecimalMark): string {
  const did = (count: number, what: string): readonly string[] =>
    count === 0 ? [] : [`${countOf(count, 'reading', mark)} ${what}`];
  const deeds = [
    ...did(edited, 'edited'),
    ...did(deleted, 'deleted'),
    ...did(returned, 'brought back'),
    ...did(added, 'added'),
  ];
  return deeds.length === 0 ? 'nothing changed' : listText(deeds);
}

/** When an edit was made and by whom, in the time of this place. */
export function stepSource({ when, who }: Pick<StepNote, 'when' | 'who'>): string {
  return who === undefined ? momentText(when) : `${momentText(when)}, ${who}`;
}

/** A reading as one line of a list. */
export function readingSentence(reading: Reading, mark: DecimalMark): string {
  const { time, repair, family, point, stage, specimen, meter } = reading;
  const measured = specimen === 'board' ? point : `${point}, ${specimen}`;
  const named = [
    minuteText(time),
    repair,
    [family, measured].join(' ').trim(),
    stage,
    readingLine(reading, mark),
    meter,
  ];
  return named.filter((text) => text !== '').join(', ');
}

/** What every new row has from the reading beside it; empty where that is nothing. */
export function givenSentence({ given }: AddAnswer): string {
  const { repair, family, point, specimen, stage, mode, meter } = given;
  const texts = [repair, family, point, specimen === 'board' ? undefined : specimen, stage, mode, meter];
  const said = texts.filter((text) => text !== undefined && text !== '');
  return said.length === 0 ? '' : `What the block does not say is as in the current row: ${said.join(', ')}.`;
}

/** How the columns of a block are read. */
export function columnsSentence({ hasHeader, columns }: AddAnswer): string {
  const named = columns.map(({ header, field }) => (header === field ? field : `“${header}” as ${field}`));
  return `${hasHeader ? 'Read by its headers' : 'Read by the columns of the grid'}: ${listText(named)}.`;
}

/** What a block of new rows comes to. */
export function addedSentence({ added, setAside }: AddAnswer, mark: DecimalMark): string {
  const aside = setAside === 0 ? [] : [`${countOf(setAside, 'row', mark)} set aside with the reason, to be mended on Shift`]; // prettier-ignore
  return `${listText([`${countOf(added, 'reading', mark)} would be added`, ...aside])}.`;
}

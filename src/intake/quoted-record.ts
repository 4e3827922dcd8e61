import { MAX_CELL } from './caps.ts';

/** `loose`: quotation marks inside a quoted cell are not doubled. `unclosed`: a quotation mark opens a cell and nothing closes it. */
export type QuoteFault = 'loose' | 'unclosed';

/** One record with quotation marks. */
export interface QuotedRecord {
  readonly cells: string[];
  /** Where the next record starts. */
  readonly end: number;
  /** Line ends inside its cells. */
  readonly breaks: number;
  readonly fault: QuoteFault | undefined;
}

const QUOTE = 34;
const LF = 10;
const CR = 13;
const SPACE = 32;
const TAB = 9;

/**
 * Reads the record that starts at `start` as RFC 4180 has it, and bears what files really hold: blanks around a quoted cell are dropped;
 * undoubled marks inside a quoted cell that still closes on its line are kept as text;
 * a mark that opens a cell which never closes is text too, so that it swallows no following line.
 * @param last - whether `text` is the file's end
 * @returns undefined where the record may go on beyond `text`
 */
export function readQuotedRecord(
  text: string,
  start: number,
  separator: number,
  last: boolean,
): QuotedRecord | undefined {
  const cells: string[] = [];
  let breaks = 0;
  let fault: QuoteFault | undefined;
  let at = start;
  for (;;) {
    const first = skipBlanks(text, at, separator);
    let end: number;
    if (text.charCodeAt(first) === QUOTE) {
      const close = closingMark(text, first, separator, last);
      if (close === 'later') return undefined;
      if (close === undefined) {
        end = endOfLine(text, at);
        for (const cell of text.slice(at, end).split(String.fromCharCode(separator))) cells.push(cell);
        fault = 'unclosed';
      } else {
        const inside = text.slice(first + 1, close.at);
        cells.push(inside.includes('"') ? inside.replaceAll('""', '"') : inside);
        if (close.loose) fault ??= 'loose';
        breaks += close.breaks;
        end = skipBlanks(text, close.at + 1, separator);
      }
    } else {
      end = endOfCell(text, at, separator);
      cells.push(text.slice(at, end));
    }
    if (end >= text.length) return last ? { cells, end, breaks, fault } : undefined;
    const mark = text.charCodeAt(end);
    at = end + 1;
    if (mark === separator) continue;
    if (mark === CR) {
      if (at === text.length && !last) return undefined;
      if (text.charCodeAt(at) === LF) at += 1;
    }
    return { cells, end: at, breaks, fault };
  }
}

interface ClosingMark {
  readonly at: number;
  readonly loose: boolean;
  readonly breaks: number;
}

/**
 * The mark that closes the cell opened at `open`: the first undoubled one that a separator, a line end or the file's end follows.
 * Behind an undoubled mark that does not close, only the rest of the line is searched: a text of such marks would else be searched
 * again from each of its lines.
 */
function closingMark(text: string, open: number, separator: number, last: boolean): ClosingMark | 'later' | undefined {
  let loose = false;
  let breaks = 0;
  let counted = open;
  let from = open + 1;
  let lineEnd = Infinity;
  for (;;) {
    const at = text.indexOf('"', from);
    if (loose && (at < 0 || at > lineEnd)) return last || lineEnd < text.length ? undefined : 'later';
    if (at < 0) return last || text.length - open > MAX_CELL + 1 ? undefined : 'later';
    if (at - open > MAX_CELL + 1) return undefined;
    if (text.charCodeAt(at + 1) === QUOTE) {
      from = at + 2;
      continue;
    }
    const after = skipBlanks(text, at + 1, separator);
    if (after >= text.length && !last) return 'later';
    const next = text.charCodeAt(after);
    const closes = after >= text.length || next === separator || next === LF || next === CR;
    breaks += lineEnds(text, counted, at);
    counted = at;
    if (closes) return { at, loose, breaks };
    if (breaks > 0) return undefined;
    if (!loose) lineEnd = endOfLine(text, at);
    loose = true;
    from = at + 1;
  }
}

function skipBlanks(text: string, at: number, separator: number): number {
  let code = text.charCodeAt(at);
  while ((code === SPACE || code === TAB) && code !== separator) code = text.charCodeAt((at += 1));
  return at;
}

function endOfCell(text: string, at: number, separator: number): number {
  for (; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (code === separator || code === LF || code === CR) break;
  }
  return at;
}

function endOfLine(text: string, at: number): number {
  return endOfCell(text, at, LF);
}

/** How many line ends (CR, LF or CRLF) lie between two places. */
function lineEnds(text: string, from: number, to: number): number {
  let count = 0;
  for (let at = from; at < to; at += 1) {
    const code = text.charCodeAt(at);
    if (code === LF || (code === CR && text.charCodeAt(at + 1) !== LF)) count += 1;
  }
  return count;
}

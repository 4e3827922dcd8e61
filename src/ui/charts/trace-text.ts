import { formatComputed, joinQuantity, type DecimalMark } from '../../domain/quantity.ts';
import { MODE_UNITS } from '../../domain/reading.ts';
import type { BenchCalls } from '../../session/answers.ts';
import { countOf, durationText } from '../words.ts';

type RunInLine = ReturnType<BenchCalls['runIns']>[number];

const SECOND = 1000;

/** Milliseconds as `1:04:30`, or `4:30` within the hour. */
export function elapsedText(since: number): string {
  const seconds = Math.round(since / SECOND);
  const [hours, minutes] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60];
  const two = (count: number): string => String(count).padStart(2, '0');
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}

/** What a run-in shows, in one sentence. */
export function traceSentence({ point, mode, lastDigit, summary }: RunInLine, mark: DecimalMark): string {
  if (summary === undefined) return `${point}: no entry holds a number and a time.`;
  const text = (value: number): string => joinQuantity(formatComputed(value, MODE_UNITS[mode], lastDigit, mark));
  const { entries, length, minimum, maximum } = summary;
  return `${point}: ${countOf(entries, 'reading', mark)} over ${durationText(length, mark)}, from ${text(minimum)} to ${text(maximum)}.`;
}

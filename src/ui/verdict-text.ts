import { isOutOfBand, sideOf, verdictOf, type PartWord } from '../domain/verdict.ts';

/** How a verdict stands on the page: a sign that differs in shape, and a word. */
export interface VerdictText {
  readonly sign: string;
  readonly word: string;
  readonly wrong: boolean;
}

/** The sign and word of a verdict's code; a part's plain word goes before the verdict's own. */
export function verdictText(code: number, word?: PartWord): VerdictText {
  return { sign: signOf(code), word: word ?? wordOf(code), wrong: isOutOfBand(code) };
}

function signOf(code: number): string {
  switch (verdictOf(code)) {
    case 'pass':
      return '✓';
    case 'conditional pass':
      return '◇';
    case 'conditional fail':
      return '◆';
    case 'fail':
      return sideOf(code) === 'high' ? '▲' : '▼';
    case 'no band':
    case 'not judged':
      return '·';
  }
}

function wordOf(code: number): string {
  const verdict = verdictOf(code);
  const side = sideOf(code);
  if (side === 'none') return verdict;
  return verdict === 'fail' ? side : `${verdict}, ${side}`;
}

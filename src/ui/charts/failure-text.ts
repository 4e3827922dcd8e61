import { SEGMENT_KINDS, type SegmentKind } from '../../charts/bars.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { countOf, countText } from '../words.ts';
import type { FailureBar } from './failure-bars.ts';
import { fixedText, shareText } from './share-text.ts';

/** What repairs are worth that need not be whole: `4.3`. */
export function worthText(repairs: number, mark: DecimalMark): string {
  return repairs > 0 && repairs < 0.05 ? `under ${fixedText(0.05, 2, mark)}` : fixedText(repairs, 1, mark);
}

/** Short label at the end of a bar: `41 + 4.3 inferred · replaced 58`. */
export function barLabel({ failed, inferred, replaced }: FailureBar, mark: DecimalMark): string {
  const first =
    inferred > 0 ? `${countText(failed, mark)} + ${worthText(inferred, mark)} inferred` : countText(failed, mark);
  return `${first} · replaced ${countText(replaced, mark)}`;
}

/** What a bar says, as a sentence. */
export function barSentence(part: FailureBar, repairs: number, mark: DecimalMark): string {
  const count = (value: number): string => countText(value, mark);
  const words = (['shorted', 'leaky', 'open'] as const).filter((word) => part[word] > 0);
  const how = words.length === 0 ? '' : ` (${words.map((word) => `${count(part[word])} ${word}`).join(', ')})`;
  const suspected = part.suspected > 0 ? ` Suspected in ${count(part.suspected)} more.` : '';
  const read =
    part.read < repairs
      ? ` Read in ${count(part.read)}; of the others it is expected to have failed in ${worthText(part.inferred, mark)}.`
      : '';
  const share =
    part.share !== undefined && part.failed + part.inferred > 0
      ? ` It fails in ${shareText(part.share, mark)} of repairs, with 95 % confidence.`
      : '';
  const good = part.replacedGood > 0 ? `, ${count(part.replacedGood)} of them although it had measured good` : '';
  const failed = `${part.part} proved failed in ${count(part.failed)} of ${countOf(repairs, 'repair', mark)}`;
  return `${failed}${how}.${suspected}${read}${share} Replaced in ${count(part.replaced)}${good}.`;
}

/** The kinds of segments that any of the bars holds, in the order in which they are drawn. */
export function kindsIn(parts: readonly FailureBar[]): readonly SegmentKind[] {
  return SEGMENT_KINDS.filter((kind) =>
    parts.some((part) => (kind === 'failed' ? part.failed > part.shorted + part.leaky + part.open : part[kind] > 0)),
  );
}

import { SEGMENT_KINDS } from '../../charts/bars.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { PartFailures } from '../../session/answers.ts';
import { countOf, countText } from '../words.ts';

/** Short label at the end of a bar: `41 + 9 suspected · replaced 58`. */
export function barLabel({ failed, suspected, replaced }: PartFailures, mark: DecimalMark): string {
  const count = (value: number): string => countText(value, mark);
  const first = suspected > 0 ? `${count(failed)} + ${count(suspected)} suspected` : count(failed);
  return `${first} · replaced ${count(replaced)}`;
}

/** What a bar says, as a sentence. */
export function barSentence(part: PartFailures, repairs: number, mark: DecimalMark): string {
  const count = (value: number): string => countText(value, mark);
  const words = (['shorted', 'leaky', 'open'] as const).filter((word) => part[word] > 0);
  const how = words.length === 0 ? '' : ` (${words.map((word) => `${count(part[word])} ${word}`).join(', ')})`;
  const share = part.failed > 0 ? `, ${shareText(part.share, mark)} of repairs with 95 % confidence` : '';
  const suspected = part.suspected > 0 ? ` Suspected in ${count(part.suspected)} more.` : '';
  const good = part.replacedGood > 0 ? `, ${count(part.replacedGood)} of them although it had measured good` : '';
  const failed = `${part.part} measured bad out of circuit in ${count(part.failed)} of ${countOf(repairs, 'repair', mark)}`;
  return `${failed}${how}${share}.${suspected} Replaced in ${count(part.replaced)}${good}.`;
}

/** An interval of a share in whole percent: `36 to 57 %`. */
export function shareText({ low, high }: PartFailures['share'], mark: DecimalMark): string {
  const percent = (share: number): string => countText(Math.round(share * 100), mark);
  return `${percent(low)} to ${percent(high)}\u00a0%`;
}

/** The kinds of segments that any of the bars holds, in the order in which they are drawn. */
export function kindsIn(parts: readonly PartFailures[]): readonly (typeof SEGMENT_KINDS)[number][] {
  return SEGMENT_KINDS.filter((kind) =>
    parts.some((part) => (kind === 'failed' ? part.failed > part.shorted + part.leaky + part.open : part[kind] > 0)),
  );
}

import type { Check } from '../../domain/check.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import { countText } from '../words.ts';
import type { Proposal, TrialShare } from '../../session/answers.ts';

/** A check as a heading names it: `HERON-48, 24V main, live, DC volts`. */
export function checkText({ family, point, stage, mode }: Check): string {
  return [family, point, stage, mode].join(', ');
}

/** Names a check among others. */
export function checkKey({ family, point, stage, mode }: Check): string {
  return JSON.stringify([family, point, stage, mode]);
}

/** A share of boards with its interval: `4 of 140 (1 to 7 %)`. */
export function trialText({ count, of, share }: TrialShare, mark: DecimalMark): string {
  if (of === 0) return 'none to try';
  const interval = share === undefined ? '' : ` (${intervalText(share, mark)})`;
  return `${countText(count, mark)} of ${countText(of, mark)}${interval}`;
}

function intervalText({ low, high }: { readonly low: number; readonly high: number }, mark: DecimalMark): string {
  return `${sharePercent(low, mark)} to ${sharePercent(high, mark)}\u00a0%`;
}

/** A share in percent, with a decimal only where it is small: `0.4`, `12`. */
export function sharePercent(share: number, mark: DecimalMark): string {
  return numberText(share * 100, share < 0.0995 && share > 0 ? 1 : 0, mark).replace(/[.,]0$/, '');
}

/** A plain number with its decimal mark. */
export function numberText(value: number, decimals: number, mark: DecimalMark): string {
  const text = value.toFixed(decimals).replace('-', '\u2212');
  return mark === ',' ? text.replace('.', ',') : text;
}

/** How a proposed band came to be, in words. */
export function methodText({ method, scale }: Proposal): string {
  if (method === 'open') return 'nearly all read over range: open';
  const form = method === 'normal' ? 'normal tolerance interval' : 'distribution-free (Wilks)';
  return scale === 'log' ? `${form}, of the logarithms` : form;
}

/** What the Anderson–Darling test says of the readings. */
export function normalityText({ method, normality }: Proposal, mark: DecimalMark): string {
  if (method === 'open') return '';
  if (normality === undefined) return 'too few to test for normality';
  const p = normality < 0.001 ? `p < ${numberText(0.001, 3, mark)}` : `p = ${numberText(normality, normality < 0.1 ? 3 : 2, mark)}`; // prettier-ignore
  return `${normality < 0.05 ? 'not normal' : normality < 0.25 ? 'hardly normal' : 'may be normal'}, ${p}`;
}

/** Today as the bench's calendar has it, ISO 8601. */
export function today(now: Date = new Date()): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

import { renameLog } from '../../columns/rename.ts';
import type { NameAnswer } from '../../domain/name-answer.ts';
import type { UnknownName } from '../contract/intake.ts';
import type { BenchData } from './bench-data.ts';

const MOST_ALIKE = 3;

/** The bench with every name that is another name for a known one put right in its readings. */
export function withAliases(data: BenchData): BenchData {
  const meaningOf = (kind: UnknownName['kind'], name: string, family?: string): string =>
    data.aliases.find((answer) => isAbout(answer, kind, name, family) && answer.meaning !== undefined)?.meaning ?? name;
  if (!data.aliases.some((answer) => answer.meaning !== undefined)) return data;
  const log = renameLog(data.log, {
    family: (name) => meaningOf('family', name),
    point: (family, name) => meaningOf('point', name, family),
    meter: (name) => meaningOf('meter', name),
  });
  return { ...data, log };
}

/**
 * Names of families, points and meters that readings brought and no table or answer knows. Points are asked for only in families that have
 * declared points, meters only where some meter is known: elsewhere all names are new.
 */
export function unknownNames(data: BenchData): readonly UnknownName[] {
  const { log } = data;
  const { checks, families, points, meters } = log.names;
  const byCheck = new Uint32Array(checks.size);
  const byMeter = new Uint32Array(meters.size);
  for (let row = 0; row < log.count; row += 1) {
    byCheck[log.check[row]!]! += 1;
    byMeter[log.meter[row]!]! += 1;
  }
  const found = new Map<string, UnknownName>();
  const add = (
    kind: UnknownName['kind'],
    name: string,
    known: readonly string[],
    count: number,
    family?: string,
  ): void => {
    const isAnswered = data.aliases.some((answer) => isAbout(answer, kind, name, family));
    if (name === '' || count === 0 || known.length === 0 || known.includes(name) || isAnswered) return;
    const key = JSON.stringify([kind, family, name]);
    const readings = (found.get(key)?.readings ?? 0) + count;
    const same = sameOf(name, known);
    found.set(key, {
      kind,
      name,
      ...(family !== undefined && { family }),
      readings,
      alike: alike(name, known),
      ...(same !== undefined && { same }),
    });
  };
  for (let check = 0; check < checks.size; check += 1) {
    const family = families.label(checks.familyCode(check));
    const declared = data.families.get(family);
    add('family', family, [...data.families.keys()], byCheck[check]!);
    const known = declared?.points.map((point) => point.name) ?? [];
    add('point', points.label(checks.pointCode(check)), known, byCheck[check]!, family);
  }
  meters.labels.forEach((name, code) => {
    add('meter', name, data.meters.map((meter) => meter.name), byMeter[code]!); // prettier-ignore
  });
  return [...found.values()];
}

/** The known names nearest to one by edit distance, the case and what is neither letter nor digit apart. */
function alike(name: string, known: readonly string[]): readonly string[] {
  return known
    .map((other) => ({ other, distance: editDistance(plain(name), plain(other)) }))
    .sort((a, b) => a.distance - b.distance)
    .slice(0, MOST_ALIKE)
    .map(({ other }) => other);
}

/** The one known name that differs in case and in what is neither letter nor digit; of 12V and −12V none does. */
function sameOf(name: string, known: readonly string[]): string | undefined {
  const same = known.filter((other) => plain(other) === plain(name) && signOf(other) === signOf(name));
  return same.length === 1 && plain(name) !== '' ? same[0] : undefined;
}

/** A sign before a digit, which is no mere punctuation. */
function signOf(name: string): string {
  return /(?:^|\s)([+\-−])\s?\d/.exec(name)?.[1]?.replace('−', '-') ?? '';
}

function plain(name: string): string {
  return name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

/** Levenshtein (1966): the fewest insertions, deletions and substitutions that turn one text into the other. */
export function editDistance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const change = row[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(change, row[j]! + 1, next[j - 1]! + 1));
    }
    row = next;
  }
  return row[to.length]!;
}

function isAbout(answer: NameAnswer, kind: UnknownName['kind'], name: string, family?: string): boolean {
  return answer.kind === kind && answer.name === name && answer.family === family;
}

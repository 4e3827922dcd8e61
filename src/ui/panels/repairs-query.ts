import { OUTCOMES } from '../../domain/repair.ts';
import type { DecimalMark } from '../../domain/quantity.ts';
import type { RepairsQuery } from '../../session/answers.ts';
import { countText, dayText, listText } from '../words.ts';

/** What an address calls the entries that hold one text, and those that hold several. */
const TEXTS = [
  ['family', 'family'],
  ['complaint', 'complaint'],
  ['meter', 'meter'],
  ['bench', 'bench'],
  ['failedClass', 'class'],
] as const;
const LISTS = [
  ['failed', 'failed'],
  ['suspected', 'suspected'],
  ['replaced', 'replaced'],
  ['replacedGood', 'replaced-good'],
  ['readBad', 'read-bad'],
  ['beyondKit', 'beyond-kit'],
] as const;
const DAYS = [
  ['from', 'since'],
  ['to', 'until'],
] as const;

/** Reads from an address which repairs are meant; undefined where it narrows nothing. What is not understood is passed over. */
export function readRepairsQuery(parameters: URLSearchParams): RepairsQuery | undefined {
  const outcome = OUTCOMES.find((one) => one === parameters.get('outcome'));
  const query: RepairsQuery = {
    ...entries(TEXTS, (name) => parameters.get(name) ?? undefined),
    ...entries(LISTS, (name) => (parameters.has(name) ? parameters.getAll(name) : undefined)),
    ...entries(DAYS, (name) => timeIn(parameters.get(name))),
    ...(outcome && { outcome }),
    ...(parameters.has('came-back') && { cameBack: true }),
  };
  return Object.keys(query).length === 0 ? undefined : query;
}

/** Writes what `readRepairsQuery` reads. */
export function writeRepairsQuery(query: RepairsQuery): URLSearchParams {
  const parameters = new URLSearchParams();
  for (const [key, name] of TEXTS) if (query[key] !== undefined) parameters.set(name, query[key]);
  for (const [key, name] of LISTS) for (const part of query[key] ?? []) parameters.append(name, part);
  for (const [key, name] of DAYS) if (query[key] !== undefined) parameters.set(name, String(query[key]));
  if (query.outcome !== undefined) parameters.set('outcome', query.outcome);
  if (query.cameBack === true) parameters.set('came-back', '');
  return parameters;
}

/** Which repairs are meant, as a phrase that begins with how many there are. */
export function repairsPhrase(query: RepairsQuery, count: number, mark: DecimalMark): string {
  const { family, failed, suspected, replaced, replacedGood, readBad, failedClass, beyondKit } = query;
  const parts = (
    names: readonly string[] | undefined,
    said: (names: string, be: string) => string,
  ): readonly string[] => (names === undefined ? [] : [said(listText(names), names.length === 1 ? 'is' : 'are')]);
  const within = [
    ...parts(failed, (names, be) => `${names} ${be} proved failed`),
    ...parts(suspected, (names, be) => `${names} ${be} suspected`),
    ...parts(readBad, (names) => `${names} read bad in circuit`),
    ...parts(replaced, (names) => `${names} ${replaced?.length === 1 ? 'was' : 'were'} replaced`),
    ...parts(replacedGood, (names) => `${names} ${replacedGood?.length === 1 ? 'was' : 'were'} replaced although measured good`), // prettier-ignore
    ...(failedClass === undefined ? [] : [`a part ${failedClass} is proved failed`]),
    ...parts(beyondKit, (names) => `another part was needed than ${names}`),
  ];
  const about = [
    ...(query.complaint === undefined ? [] : [`under “${query.complaint}”`]),
    ...(query.from === undefined ? [] : [`begun from ${dayText(query.from)}`]),
    ...(query.to === undefined ? [] : [`${query.from === undefined ? 'begun ' : ''}up to ${dayText(query.to)}`]),
    ...(query.meter === undefined ? [] : [`measured with ${query.meter}`]),
    ...(query.bench === undefined ? [] : [`at bench ${query.bench}`]),
    ...(query.outcome === undefined ? [] : [`with outcome “${query.outcome}”`]),
    ...(query.cameBack === true ? ['whose board came back'] : []),
  ];
  const noun = count === 1 ? 'repair' : 'repairs';
  return [
    `${countText(count, mark)} ${noun}`,
    ...(family === undefined ? [] : [`of ${family}`]),
    ...about,
    ...(within.length === 0 ? [] : [`in which ${listText(within)}`]),
  ].join(' ');
}

/** The entries that are there, by what they are called. */
function entries<Key extends string, Name, Value>(
  names: readonly (readonly [Key, Name])[],
  read: (name: Name) => Value | undefined,
): Partial<Record<Key, Value>> {
  const found = names.flatMap(([key, name]) => {
    const value = read(name);
    return value === undefined ? [] : [[key, value] as const];
  });
  return Object.fromEntries(found) as Partial<Record<Key, Value>>;
}

function timeIn(text: string | null): number | undefined {
  const time = text === null || text.trim() === '' ? NaN : Number(text);
  return Number.isFinite(time) && Math.abs(time) < LATEST ? time : undefined;
}

/** Beyond this no day can be written. */
const LATEST = 8.64e15;

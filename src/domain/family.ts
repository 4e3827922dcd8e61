/** A part of a board family and the two nodes that it sits across (their order does not matter). */
export interface Part {
  /** Reference designator: letters by class and a number, such as `Q1`, `BR1`. */
  readonly designator: string;
  readonly nodes: readonly [string, string];
}

/** What a test point tells about: a supply that the board makes or takes, or one part. */
export const ROLES = ['mains', 'bulk', 'standby', 'main', 'backlight', 'part'] as const;
export type Role = (typeof ROLES)[number];

/** Where probes go on a family's boards. */
export interface TestPoint {
  readonly name: string;
  readonly role: Role;
  /** The part that it measures, where its role is `part`. */
  readonly part?: string;
  /** Points of one family with the same rail carry the same supply and must agree. */
  readonly rail?: string;
}

/** One board layout. */
export interface Family {
  readonly name: string;
  /** Whether a boost stage lifts the bulk voltage above rectified mains. */
  readonly boost: boolean;
  readonly points: readonly TestPoint[];
  readonly parts: readonly Part[];
}

/** What a table declares of a family: it may leave open whether there is a boost stage. */
export type DeclaredFamily = Omit<Family, 'boost'> & { readonly boost?: boolean };

const DESIGNATOR = /^(BR|[A-Z])\d{1,4}(?=$|[ _:/-])/;

/** The designator at the start of a point's name (`Q1 D→S` → `Q1`), or none. */
export function designatorOf(point: string): string | undefined {
  return DESIGNATOR.exec(point)?.[0];
}

/** The class letters of a designator: `BR1` → `BR`. */
export function partClass(designator: string): string {
  return designator.replace(/\d.*$/, '');
}

/** What a point is by its name alone: a designator makes it a part's; the words of the trade name the supplies. */
export function roleOf(point: string): Role {
  if (designatorOf(point) !== undefined) return 'part';
  const name = point.toLowerCase();
  if (name.includes('standby')) return 'standby';
  if (name.includes('backlight')) return 'backlight';
  if (name.includes('bulk')) return 'bulk';
  if (name.includes('mains')) return 'mains';
  return 'main';
}

/** A test point made from its name, as it stands until somebody says otherwise. */
export function pointFromName(name: string): TestPoint {
  const part = designatorOf(name);
  return part === undefined ? { name, role: roleOf(name) } : { name, role: 'part', part };
}

/** The parts of a family grouped by the nodes that they share; parts of one group mask each other in circuit. Groups of one are left out. */
export function maskingGroups(parts: readonly Part[]): readonly (readonly string[])[] {
  const byNodes = new Map<string, string[]>();
  for (const { designator, nodes } of parts) {
    const key = JSON.stringify([...nodes].sort());
    const group = byNodes.get(key);
    if (group) group.push(designator);
    else byNodes.set(key, [designator]);
  }
  return [...byNodes.values()].filter((group) => group.length > 1);
}

/** The parts that can mask `designator`: those across the same two nodes. */
export function maskedBy(parts: readonly Part[], designator: string): readonly string[] {
  const group = maskingGroups(parts).find((members) => members.includes(designator));
  return group ? group.filter((member) => member !== designator) : [];
}

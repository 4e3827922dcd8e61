/** A part and the two nodes that it sits across. */
export interface PlacedPart {
  readonly designator: string;
  readonly nodes: readonly [string, string];
}

/** A node, drawn as an upright line; places in pixels. */
export interface NodeLine {
  readonly node: string;
  readonly x: number;
  /** Middle of its name, in a row of its own above its first rung. */
  readonly label: number;
  /** First and last rung on it. */
  readonly from: number;
  readonly to: number;
}

/** A part, drawn as a rung between its two nodes. */
export interface Rung {
  readonly designator: string;
  readonly left: number;
  readonly right: number;
  readonly y: number;
}

/** Parts across the same two nodes: they mask each other in circuit. */
export interface MaskingGroup {
  readonly parts: readonly string[];
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface MaskingLayout {
  readonly nodes: readonly NodeLine[];
  readonly rungs: readonly Rung[];
  readonly groups: readonly MaskingGroup[];
  readonly width: number;
  readonly height: number;
}

export interface MaskingSize {
  /** Distance of two nodes, and of two rungs, in pixels. */
  readonly column: number;
  readonly row: number;
}

/**
 * Lays a family's parts out as rungs between its nodes, those across the same two nodes one below the other. Nodes share a column where their rungs
 * do not overlap in height, so that the drawing stays narrow; parts come in the order given, each with those that it masks.
 */
export function layOutMasking(parts: readonly PlacedPart[], { column, row }: MaskingSize): MaskingLayout {
  const blocks = blocksOf(parts);
  const order = connectedOrder(blocks);
  const places = new Map<string, { first: number; last: number }>();
  let rows = 0;
  const placed = order.map((block) => {
    if (block.nodes.some((node) => !places.has(node))) rows += 1;
    const first = rows;
    rows += block.parts.length;
    for (const node of block.nodes) {
      const known = places.get(node);
      places.set(node, { first: known?.first ?? first, last: rows - 1 });
    }
    return { ...block, first };
  });
  const columns = columnsOf(places);
  const x = (node: string): number => ((columns.get(node) ?? 0) + 0.5) * column;
  const y = (place: number): number => (place + 0.5) * row;
  const span = (nodes: readonly string[]) => ({ left: Math.min(...nodes.map(x)), right: Math.max(...nodes.map(x)) });
  return {
    nodes: [...places].map(([node, { first, last }]) => ({
      node,
      x: x(node),
      label: y(first - 1),
      from: y(first),
      to: y(last),
    })),
    rungs: placed.flatMap((block) =>
      block.parts.map((designator, at) => ({ designator, ...span(block.nodes), y: y(block.first + at) })),
    ),
    groups: placed
      .filter((block) => block.parts.length > 1)
      .map((block) => ({
        parts: block.parts,
        ...span(block.nodes),
        top: y(block.first) - row / 2,
        bottom: y(block.first + block.parts.length - 1) + row / 2,
      })),
    width: (Math.max(-1, ...columns.values()) + 1) * column,
    height: rows * row,
  };
}

interface Block {
  readonly nodes: readonly [string, string];
  readonly parts: readonly string[];
}

/** Parts across the same two nodes, in the order of the first of each. */
function blocksOf(parts: readonly PlacedPart[]): readonly Block[] {
  const blocks = new Map<string, { nodes: readonly [string, string]; parts: string[] }>();
  for (const { designator, nodes } of parts) {
    const key = JSON.stringify([...nodes].sort());
    const known = blocks.get(key);
    if (known) known.parts.push(designator);
    else blocks.set(key, { nodes, parts: [designator] });
  }
  return [...blocks.values()];
}

/** Blocks that share a node follow each other, so that the lines of nodes stay short. */
function connectedOrder(blocks: readonly Block[]): readonly Block[] {
  const left = [...blocks];
  const order: Block[] = [];
  while (left.length > 0) {
    const last = order.at(-1);
    const next = left.findIndex((block) => last?.nodes.some((node) => block.nodes.includes(node)) === true);
    order.push(...left.splice(Math.max(0, next), 1));
  }
  return order;
}

/** The first column that is free at a node's height, for each node from the top down. */
function columnsOf(places: ReadonlyMap<string, { first: number; last: number }>): ReadonlyMap<string, number> {
  const ends: number[] = [];
  const columns = new Map<string, number>();
  for (const [node, { first, last }] of places) {
    const free = ends.findIndex((end) => end < first - 1);
    const at = free < 0 ? ends.length : free;
    ends[at] = last;
    columns.set(node, at);
  }
  return columns;
}

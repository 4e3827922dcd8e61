/**
 * The same text in memory of its own. Engines let a piece of a long text hold on to all of it,
 * so that one name kept from a piece of a file would keep the whole piece.
 */
export function detached(text: string): string {
  return JSON.parse(JSON.stringify(text)) as string;
}
